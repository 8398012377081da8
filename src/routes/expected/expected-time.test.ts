import { describe, expect, test } from 'vitest';
import { isClose } from '#quantity/close';
import type { Fact, RouteAction, RouteProblem, WayOdds } from '#routes/problem/route-problem';
import { randomDevice } from '../../../test/referee/expected/random-device.ts';
import { randomWork } from '../../../test/referee/expected/random-work.ts';
import { type Seeded, seeded } from '../../../test/referee/expected/seeded.ts';
import { toRouteProblem } from '../../../test/referee/expected/to-route-problem.ts';
import { share } from '../../../test/share.ts';
import { expectedTime } from './expected-time.ts';
import { leastDamage } from './least-damage.ts';
import { timeOfOrder } from './time-of-order.ts';

const strip: Fact = 'released/strip';
const losses = { damageMilliseconds: 3_600_000, strandedMilliseconds: 3_600_000 };
const exactly = (value: number): WayOdds['success'] => ({ low: value, mean: value, high: value });
const oddsOf = (success: WayOdds['success'], damage = exactly(0)): WayOdds => ({
  success,
  damage,
  tries: 2,
  source: 'bench',
});

const way = (id: string, seconds: number, odds?: WayOdds): RouteAction => ({
  id: `release/strip/${id}`,
  kind: 'release',
  subject: 'strip',
  way: id,
  atoms: [{ do: 'pull', tools: [], milliseconds: seconds * 1000 }],
  needs: [],
  anyOf: [],
  gives: [strip],
  ...(odds ? { odds } : {}),
});

const problemOf = (actions: readonly RouteAction[]): RouteProblem => ({
  reach: 'pessimistic',
  tools: [],
  actions,
  priorityParts: [],
  unreachable: {},
});

describe('expectedTime shows its policy', () => {
  const problem = problemOf([
    way('pull', 20, oddsOf(exactly(0.7), exactly(0.1))),
    way('dissolve', 200, oddsOf(exactly(0.9))),
  ]);
  const mild = { damageMilliseconds: 600_000, strandedMilliseconds: 600_000 };
  const found = expectedTime(problem, strip, { losses: mild });

  test('the likeliest course, the others and their chances', () => {
    expect(found.likeliest).toMatchObject({
      ends: 'reached',
      milliseconds: 20_000,
      tries: [{ action: 'release/strip/pull', came: 'success' }],
    });
    const others = found.others.map(({ ends, tries }) => [ends, tries.map(({ came }) => came).join(' then ')]);
    expect(others).toEqual([
      ['reached', 'failure then success'],
      ['damaged', 'damage'],
      ['stranded', 'failure then failure'],
    ]);
    expect(found.unlistedChance).toSatisfy((chance: number) => isClose(chance, 0, { abs: 1e-12 }));
  });

  test('the chance of each end, and the work without losses', () => {
    expect(found.chances.damaged).toBe(0.1);
    expect(found.chances.stranded).toSatisfy((chance: number) => isClose(chance, 0.2 * 0.1, { abs: 1e-12 }));
    expect(found.workMilliseconds).toSatisfy((time: number) => isClose(time, 20_000 + 0.2 * 200_000, { rel: 1e-12 }));
    const withLosses = found.workMilliseconds + (found.chances.damaged + found.chances.stranded) * 600_000;
    expect(found.milliseconds).toSatisfy((time: number) => isClose(time, withLosses, { rel: 1e-12 }));
  });

  test('listing fewer courses says how much chance is left out', () => {
    const short = expectedTime(problem, strip, { losses: mild, branches: 1 });
    expect(short.others).toEqual([]);
    expect(short.unlistedChance).toSatisfy((chance: number) => isClose(chance, 0.3, { abs: 1e-12 }));
  });
});

describe('expectedTime at the edges', () => {
  test('a target that nothing gives, or only ways that never work, is stranded at once', () => {
    const never = problemOf([way('pull', 20, oddsOf(exactly(0)))]);
    for (const problem of [problemOf([]), never]) {
      const found = expectedTime(problem, strip, { losses });
      expect(found).toMatchObject({
        milliseconds: 3_600_000,
        isProved: true,
        policy: { start: 'stranded', nodes: [] },
      });
      expect(found.chances).toEqual({ reached: 0, damaged: 0, stranded: 1 });
    }
  });

  test('chances that sum to more than 1 are refused by the name of their action', () => {
    const problem = problemOf([way('pull', 20, oddsOf(exactly(0.9), exactly(0.2)))]);
    expect(() => expectedTime(problem, strip, { losses })).toThrow(/release\/strip\/pull/);
  });

  test('an action without a duration is named, and its time is a lower value', () => {
    const { milliseconds: _, ...untimed } = { do: 'pull', tools: [], milliseconds: 0 } as const;
    const found = expectedTime(problemOf([{ ...way('pull', 20), atoms: [untimed] }]), strip, { losses });
    expect(found).toMatchObject({ milliseconds: 0, withoutTime: ['release/strip/pull'] });
  });
});

describe('what the intervals of the odds leave open', () => {
  const wide: WayOdds = { ...oddsOf({ low: 0.16, mean: 0.75, high: 1 }), tries: 2 };
  const cheap = { ...losses, strandedMilliseconds: 600_000 };

  test('two ways whose order turns within the intervals are named as not decidable', () => {
    const found = expectedTime(problemOf([way('pull', 60, wide), way('dissolve', 90, oddsOf(exactly(0.8)))]), strip, {
      losses: cheap,
    });
    const [about] = found.order.undecided;
    expect(about).toEqual({
      fact: strip,
      actions: ['release/strip/dissolve', 'release/strip/pull'],
      orders: [
        ['release/strip/pull', 'release/strip/dissolve'],
        ['release/strip/dissolve', 'release/strip/pull'],
      ],
    });
    expect(found.order.bestMilliseconds).toBeLessThan(found.milliseconds);
    expect(found.order.worstMilliseconds).toBeGreaterThan(found.milliseconds);
  });

  test('an order that holds at every end is not called undecidable', () => {
    const found = expectedTime(problemOf([way('pull', 10, wide), way('dissolve', 300, oddsOf(exactly(0.8)))]), strip, {
      losses: cheap,
    });
    expect(found.order.undecided).toEqual([]);
    expect(found.order.bestMilliseconds).toBeLessThan(found.order.worstMilliseconds ?? 0);
  });

  test('exact odds leave nothing open', () => {
    const { order, milliseconds } = expectedTime(problemOf([way('pull', 10, oddsOf(exactly(0.5)))]), strip, { losses });
    expect(order).toEqual({
      bestMilliseconds: milliseconds,
      worstMilliseconds: milliseconds,
      undecided: [],
      isProved: true,
    });
  });
});

test('leastDamage takes the slower way that damages less, expectedTime the faster', () => {
  const problem = problemOf([way('pry', 10, oddsOf(exactly(0.95), exactly(0.05))), way('dissolve', 400)]);
  const quick = expectedTime(problem, strip, { losses });
  const safe = leastDamage(problem, strip, { losses });
  expect(quick.likeliest.tries.map(({ action }) => action)).toEqual(['release/strip/pry']);
  expect(safe.likeliest.tries.map(({ action }) => action)).toEqual(['release/strip/dissolve']);
  expect([quick.chances.damaged, safe.chanceOfDamage]).toEqual([0.05, 0]);
});

/** The same problem under other names and in another order. */
const disguised = (
  problem: RouteProblem,
  random: Seeded,
): { problem: RouteProblem; nameOf: (name: string) => string } => {
  const names = new Map<string, string>();
  const nameOf = (name: string): string => {
    const known = names.get(name) ?? `released/${Math.floor(random.unit() * 1e15).toString(36)}`;
    names.set(name, known);
    return known;
  };
  const shuffled = <T>(list: readonly T[]): readonly T[] =>
    list
      .map((item) => ({ item, at: random.unit() }))
      .sort((a, b) => a.at - b.at)
      .map(({ item }) => item);
  const facts = (list: readonly Fact[]): readonly Fact[] => shuffled(list).map((fact) => nameOf(fact) as Fact);
  const actions = problem.actions.map((action) => ({
    ...action,
    id: nameOf(`action ${action.id}`),
    atoms: action.atoms.map((atom) => ({ ...atom, tools: atom.tools.map((tool) => nameOf(`tool ${tool}`)) })),
    needs: facts(action.needs),
    anyOf: shuffled(action.anyOf.map((clause) => shuffled(clause.map(facts)))),
    gives: facts(action.gives),
  }));
  const tools = problem.tools.map((tool) => ({ ...tool, id: nameOf(`tool ${tool.id}`) }));
  return { problem: { ...problem, actions: shuffled(actions), tools: shuffled(tools) }, nameOf };
};

test('no figure depends on names or on the order of lists', () => {
  for (let seed = 1; seed <= share(60, 600); seed++) {
    const random = seeded(seed);
    const work = randomWork({ random, tries: random.int(4, 11), hasDamage: true });
    const problem = toRouteProblem(work);
    const options = { losses: { damageMilliseconds: work.damageLoss, strandedMilliseconds: work.strandedLoss } };
    const other = disguised(problem, random);
    const figures = (asked: RouteProblem, target: string) => {
      const { milliseconds, chances, policy, likeliest } = expectedTime(asked, target as Fact, options);
      const { chanceOfDamage } = leastDamage(asked, target as Fact, options);
      const tries = likeliest.tries.map(({ came, milliseconds: time }) => `${came} ${time}`);
      return { milliseconds, chances, chanceOfDamage, tries, nodes: policy.nodes.length };
    };
    expect
      .soft(figures(other.problem, other.nameOf(work.target)), `seed ${seed}`)
      .toEqual(figures(problem, work.target));
  }
});

test('a limit gives an upper and a lower value that hold the optimum between them', () => {
  for (let seed = 1; seed <= share(15, 60); seed++) {
    const work = randomDevice({ random: seeded(seed), parts: 6, contested: 4, unsure: 'all' });
    const problem = toRouteProblem(work);
    const options = { losses: { damageMilliseconds: work.damageLoss, strandedMilliseconds: work.strandedLoss } };
    const target = work.target as Fact;
    const exact = expectedTime(problem, target, options);
    const cut = expectedTime(problem, target, { ...options, limits: { states: 5 } });
    expect.soft(exact.isProved).toBe(true);
    expect.soft(cut.isProved, `seed ${seed}`).toBe(exact.states <= 5);
    expect.soft(cut.boundMilliseconds, `seed ${seed}`).toBeLessThanOrEqual(exact.milliseconds * (1 + 1e-12));
    expect.soft(cut.milliseconds, `seed ${seed}`).toBeGreaterThanOrEqual(exact.milliseconds * (1 - 1e-12));
    const { workMilliseconds, chances } = cut;
    const ownWorth = workMilliseconds + chances.damaged * work.damageLoss + chances.stranded * work.strandedLoss;
    expect.soft(cut.milliseconds, `seed ${seed}`).toSatisfy((value: number) => isClose(value, ownWorth, { rel: 1e-9 }));
  }
});

test('the injected clock ends a search', () => {
  const work = randomDevice({ random: seeded(3), parts: 10, contested: 6, unsure: 'all' });
  const options = { losses: { damageMilliseconds: work.damageLoss, strandedMilliseconds: work.strandedLoss } };
  let ticks = 0;
  const limits = { states: 1_000_000, milliseconds: 2, now: () => ticks++ };
  const found = expectedTime(toRouteProblem(work), work.target as Fact, { ...options, limits });
  expect(found.isProved).toBe(false);
  expect(found.boundMilliseconds).toBeLessThanOrEqual(found.milliseconds);
});

test('timeOfOrder is never better than the optimum and refuses unknown actions', () => {
  for (let seed = 1; seed <= 40; seed++) {
    const random = seeded(seed);
    const work = randomWork({ random, tries: 8, hasDamage: true });
    const problem = toRouteProblem(work);
    const lossesOf = { damageMilliseconds: work.damageLoss, strandedMilliseconds: work.strandedLoss };
    const order = problem.actions.map(({ id }) => id).sort(() => random.unit() - 0.5);
    const target = work.target as Fact;
    const optimum = expectedTime(problem, target, { losses: lossesOf }).milliseconds;
    const given = timeOfOrder(problem, target, { order, losses: lossesOf }).milliseconds;
    expect.soft(given, `seed ${seed}`).toBeGreaterThanOrEqual(optimum * (1 - 1e-12));
  }
  expect(() => timeOfOrder(problemOf([]), strip, { order: ['nowhere'], losses })).toThrow(/"nowhere"/);
});
