import { describe, expect, test } from 'vitest';
import { seededNumbers } from '#quantity/seeded-numbers';
import { solveCompiled } from '#routes/neutral/solve-compiled';
import { share } from '../../share.ts';
import { exhaustiveOptimum, judge, type RefereeProblem } from './neutral-referee.ts';
import { smallProblem } from './small-problems.ts';
import { compileForReferee, planIds } from './solved-and-judged.ts';

interface Tally {
  cyclic: number;
  unsolvable: number;
  fractional: number;
  severalTargets: number;
  partialTable: number;
  breaksTriangle: number;
  freeStart: number;
}

const breaksTriangle = ({ tools, changeover = [] }: RefereeProblem): boolean => {
  const cost = (from: string, to: string): number =>
    from === to ? 0 : (changeover.find((row) => row[0] === from && row[1] === to)?.[2] ?? pickup(to));
  const pickup = (id: string): number => tools.find((tool) => tool.id === id)?.pickupSeconds ?? 0;
  const ids = tools.map(({ id }) => id);
  return ids.some((a) => ids.some((b) => ids.some((c) => cost(a, c) > cost(a, b) + cost(b, c))));
};

const count = (tally: Tally, problem: RefereeProblem, optimum: number | undefined): void => {
  const pairs = problem.tools.length * (problem.tools.length - 1);
  const rows = problem.changeover?.length ?? 0;
  if (optimum === undefined) tally.unsolvable++;
  if (problem.actions.some(({ seconds }) => !Number.isInteger(seconds))) tally.fractional++;
  if (problem.target.length > 1) tally.severalTargets++;
  if (rows > 0 && rows < pairs) tally.partialTable++;
  if (breaksTriangle(problem)) tally.breaksTriangle++;
  if (problem.firstPickupFree === true) tally.freeStart++;
};

const checkOne = (problem: RefereeProblem): number | undefined => {
  const optimum = exhaustiveOptimum(problem);
  const solution = solveCompiled(compileForReferee(problem));
  expect(solution.proved).toBe(true);
  expect(solution.cost).toBe(optimum);
  expect(solution.bound).toBe(optimum ?? Number.POSITIVE_INFINITY);
  if (optimum !== undefined) expect(judge(problem, planIds(problem, solution))).toBe(optimum);
  return optimum;
};

describe('solveCompiled against exhaustive Dijkstra and the judge', () => {
  test('gives the least cost and a plan of that cost on generated problems of every kind', () => {
    const tally = {
      cyclic: 0,
      unsolvable: 0,
      fractional: 0,
      severalTargets: 0,
      partialTable: 0,
      breaksTriangle: 0,
      freeStart: 0,
    };
    const cases = share(800, 20_000);
    for (let seed = 1; seed <= cases; seed++) {
      const { problem, cyclic } = smallProblem(seed);
      if (cyclic) tally.cyclic++;
      expect(problem.actions.length).toBeLessThanOrEqual(16);
      count(tally, problem, checkOne(problem));
    }
    expect(tally.cyclic).toBe(cases / 2);
    for (const kind of Object.values(tally)) expect(kind).toBeGreaterThan(cases / 50);
  });

  test('gives the least cost where fused actions end with another tool than they start with', () => {
    let fusedCount = 0;
    for (let seed = 1; seed <= share(500, 20_000); seed++) {
      const { problem, fused } = smallProblem(seed + 50_000, true);
      if (fused) fusedCount++;
      checkOne(problem);
    }
    expect(fusedCount).toBeGreaterThan(share(250, 10_000));
  });
});

const shuffled = <T>(list: readonly T[], random: () => number): T[] => {
  const result = [...list];
  for (let at = result.length - 1; at > 0; at--) {
    const other = Math.floor(random() * (at + 1));
    [result[at], result[other]] = [result[other] as T, result[at] as T];
  }
  return result;
};

/** The same problem under other names and in another order. */
const disguised = (problem: RefereeProblem, seed: number): RefereeProblem => {
  const random = seededNumbers(seed);
  const names = new Map<string, string>();
  const rename = (name: string): string => {
    if (!names.has(name)) names.set(name, `${Math.floor(random() * 1e9).toString(36)}-${names.size}`);
    return names.get(name) ?? name;
  };
  const { firstPickupFree, changeover } = problem;
  return {
    tools: shuffled(problem.tools, random).map((tool) => ({ ...tool, id: rename(tool.id) })),
    actions: shuffled(problem.actions, random).map((action) => ({
      ...action,
      id: rename(action.id),
      tool: action.tool === null ? null : rename(action.tool),
      needs: shuffled(action.needs, random).map(rename),
      gives: shuffled(action.gives, random).map(rename),
    })),
    target: shuffled(problem.target, random).map(rename),
    ...(firstPickupFree === undefined ? {} : { firstPickupFree }),
    ...(changeover === undefined
      ? {}
      : {
          changeover: shuffled(changeover, random).map(([from, to, cost]) => [rename(from), rename(to), cost] as const),
        }),
  };
};

describe('solveCompiled under other names and in another order', () => {
  test('gives the same cost', () => {
    for (let seed = 1; seed <= share(150, 2000); seed++) {
      const { problem } = smallProblem(seed);
      const cost = solveCompiled(compileForReferee(problem)).cost;
      expect(solveCompiled(compileForReferee(disguised(problem, seed))).cost).toBe(cost);
    }
  });

  test('stopped early, gives the same best cost and the same bound', () => {
    let stopped = 0;
    for (let seed = 1; seed <= share(150, 2000); seed++) {
      const { problem } = smallProblem(seed);
      const one = solveCompiled(compileForReferee(problem), { nodeLimit: 2 });
      const other = solveCompiled(compileForReferee(disguised(problem, seed)), { nodeLimit: 2 });
      if (!one.proved) stopped++;
      expect([other.cost, other.bound, other.proved]).toEqual([one.cost, one.bound, one.proved]);
    }
    expect(stopped).toBeGreaterThan(0);
  });
});

describe('solveCompiled stopped by its limit', () => {
  test('names the best plan found and a bound under the optimum', () => {
    let stopped = 0;
    for (let seed = 1; seed <= share(200, 2000); seed++) {
      const { problem } = smallProblem(seed);
      const optimum = exhaustiveOptimum(problem);
      const solution = solveCompiled(compileForReferee(problem), { nodeLimit: 1 });
      if (solution.proved) continue;
      stopped++;
      expect(solution.bound).toBeLessThanOrEqual(optimum ?? Number.POSITIVE_INFINITY);
      if (solution.cost !== undefined) expect(judge(problem, planIds(problem, solution))).toBe(solution.cost);
      expect(solution.cost ?? Number.POSITIVE_INFINITY).toBeGreaterThanOrEqual(optimum ?? 0);
    }
    expect(stopped).toBeGreaterThan(20);
  });

  test('reads the clock it is given, and stops when it is up', () => {
    const { problem } = smallProblem(4);
    let time = 0;
    const now = (): number => {
      time += 500;
      return time;
    };
    const solution = solveCompiled(compileForReferee(problem), { seconds: 0.5, now });
    expect(solution.expanded).toBeLessThan(40);
    expect(solution.milliseconds).toBeGreaterThanOrEqual(500);
  });
});
