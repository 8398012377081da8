import { describe, expect, test } from 'vitest';
import { defaultOdds } from './default-odds.ts';
import { PLAN_LIMITS } from './plan-limits.ts';
import { planSwaps } from './plan-swaps.ts';
import { Planner } from './planner.ts';
import { stateAfter } from './start-state.ts';
import type { PlannedPart, SwapProblem } from './swap-problem.ts';

const partOf = (id: string): PlannedPart => ({
  id,
  odds: defaultOdds('button'),
  layers: ['back'],
  fitSeconds: 60,
  checkSeconds: 30,
  authoriseSeconds: 60,
});

const problemOf = (ids: readonly string[], changed: Partial<SwapProblem> = {}): SwapProblem => ({
  parts: ids.map(partOf),
  layers: { back: { openSeconds: 120, closeSeconds: 120 } },
  hosts: ['A', 'B'].map((id) => ({
    id,
    firmware: '5.0.1',
    homeLock: 'none',
    revisions: Object.fromEntries(ids.map((part) => [part, 'R1'])),
  })),
  donors: [],
  firmware: ['5.0.1'],
  startSeconds: 60,
  soakSeconds: 60,
  updateSeconds: 600,
  refitControl: true,
  hides: 0,
  ...changed,
});

const armsOf = (problem: SwapProblem): readonly (readonly string[])[] =>
  planSwaps(problem, { cases: 1 }).lines.map(({ run }) =>
    run.fits.map(({ part, arm }) => `${run.host} ${part} ${arm}`),
  );

describe('refit controls', () => {
  test.each([[['p']], [['p', 'q', 'r']]])(
    'asked for, they come in both hosts before the first foreign piece; else they are left out (%j)',
    (ids) => {
      const asked = armsOf(problemOf(ids)).flat();
      for (const id of ids) {
        const first = asked.findIndex((line) => line.includes(`${id} cross`));
        expect(first).toBeGreaterThan(0);
        const before = asked.slice(0, first);
        expect(before).toEqual(expect.arrayContaining([`A ${id} refit-control`, `B ${id} refit-control`]));
      }
      const unasked = armsOf(problemOf(ids, { refitControl: false })).flat();
      expect(unasked.some((line) => line.includes('refit-control'))).toBe(false);
      expect(unasked.some((line) => line.includes('cross'))).toBe(true);
    },
  );

  test('those of one host are made in one run', () => {
    const controls = armsOf(problemOf(['p', 'q', 'r'])).filter((fits) => fits.some((line) => line.includes('control')));
    expect(controls.map((fits) => fits.length)).toEqual([3, 3]);
  });

  test('a connector with too few matings left goes without', () => {
    const scarce = problemOf(['p']);
    const matings = { A: 2, B: 2, 'specimen:A': 2, 'specimen:B': 2 };
    const arms = armsOf({ ...scarce, parts: scarce.parts.map((part) => ({ ...part, matings })) }).flat();
    expect(arms.some((line) => line.includes('control'))).toBe(false);
    expect(arms.some((line) => line.includes('cross'))).toBe(true);
  });
});

describe('donors at hand', () => {
  const donors = [
    { id: 'locked', part: 'p', kind: 'salvaged-locked-unit', revision: 'R1', homeLock: 'locked' },
    { id: 'spare-1', part: 'p', kind: 'makers-spare', revision: 'R1', homeLock: 'none' },
    { id: 'spare-2', part: 'p', kind: 'makers-spare', revision: 'R1', homeLock: 'none' },
  ] as const;

  const piecesTried = (ids: readonly string[], limits: { directions?: 'one' } = {}): readonly string[] => {
    const { lines } = planSwaps(problemOf(ids, { donors, refitControl: false }), { cases: 1, ...limits });
    return lines.flatMap(({ run }) => run.fits.filter(({ isOwn }) => !isOwn).map(({ piece }) => piece));
  };

  test.each([[['p']], [['p', 'q', 'r']]])(
    'one of each class is tried, although the part is taken to be accepted by then (%j)',
    (ids) => {
      const tried = new Set(piecesTried(ids));
      expect(tried.has('locked')).toBe(true);
      expect(tried.has('spare-1') || tried.has('spare-2')).toBe(true);
      expect(tried.has('spare-1') && tried.has('spare-2')).toBe(false);
    },
  );

  test('who asks for one direction only is not sent after every class', () => {
    expect(new Set(piecesTried(['p', 'q', 'r'], { directions: 'one' })).size).toBeLessThan(3);
  });

  test('a part is not done before its classes are tried', () => {
    const planner = new Planner(problemOf(['p', 'q', 'r'], { donors: [donors[0]] }), { ...PLAN_LIMITS });
    const last = planSwaps(planner.setup.problem, { cases: 1 }).expected;
    expect(planner.choose(stateAfter(planner.setup, []))).toBeDefined();
    expect(last.open).toBe(0);
  });
});
