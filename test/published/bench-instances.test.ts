// Source: the bench instances S1 and S2, made for this project in the manner of a phone teardown (screws, display,
// connectors, glued battery, board); their optima were computed by exact search and by full enumeration of all
// sequences, which agree. Changeover s for any change between different tools; the first pick-up costs s as well.
import { describe, expect, test } from 'vitest';
import { compileNeutral } from '#routes/neutral/compile-neutral';
import { solveCompiled } from '#routes/neutral/solve-compiled';
import { exhaustiveOptimum, type RefereeAction, type RefereeProblem } from '../referee/neutral/neutral-referee.ts';
import { planIds, provedSeconds } from '../referee/neutral/solved-and-judged.ts';

const operation = (row: string): RefereeAction => {
  const [id = '', tool = '', seconds, before = '', fact = id] = row.split(' ');
  const needs = before === '-' ? [] : before.split('+');
  return { id, tool, seconds: Number(seconds), needs, gives: [fact] };
};

const s1 = '1 A 20 -|2 B 60 1|3 C 10 2|4 D 25 2|5 C 12 3+4|6 H 15 5|7 H 30 3|8 D 30 5|9 C 8 8|10 A 18 9|11 C 10 10'
  .split('|')
  .map(operation);
/** S1 and another way to what operation 2 does. */
const s2 = [...s1, operation('12 C 63 1 2')];

const problemOf = (
  actions: readonly RefereeAction[],
  changeover: number,
  target: readonly string[],
): RefereeProblem => ({
  tools: ['A', 'B', 'C', 'D', 'H'].map((id) => ({ id, pickupSeconds: changeover })),
  actions,
  target,
});

const planOf = (problem: RefereeProblem): string[] =>
  planIds(problem, solveCompiled(compileNeutral({ format: 'unfasten/route-problem', version: 1, ...problem })));

const pickups = (problem: RefereeProblem, plan: readonly string[]): number => {
  const tools = plan.map((id) => problem.actions.find((action) => action.id === id)?.tool);
  return tools.filter((tool, at) => tool !== tools[at - 1]).length;
};

describe('S1', () => {
  test.each([
    ['7', 120, 140, 240, 4],
    ['11', 193, 233, 433, 8],
    ['7 11', 223, 268, 493, 9],
    ['6 7 11', 238, 283, 508, 9],
  ])('targets %s: %i s, %i s and %i s at changeovers of 0, 5 and 30 s; %i pick-ups at 5 s', (...row) => {
    const [targets, free, five, thirty, count] = row;
    for (const [changeover, seconds] of [
      [0, free],
      [5, five],
      [30, thirty],
    ] as const) {
      const problem = problemOf(s1, changeover, targets.split(' '));
      expect(exhaustiveOptimum(problem)).toBe(seconds * 1000);
      expect(provedSeconds(problem)).toBe(seconds);
    }
    const problem = problemOf(s1, 5, targets.split(' '));
    expect(pickups(problem, planOf(problem))).toBe(count);
  });
});

describe('S2', () => {
  test.each([
    ['3', [90, 103, 153], ['2', '12', '12']],
    ['7', [120, 138, 213], ['2', '12', '12']],
    ['7 11', [223, 268, 493], ['2', '2', '2']],
  ])('targets %s: %j s at changeovers of 0, 5 and 30 s, opened by operations %j', (targets, seconds, ways) => {
    for (const [at, changeover] of [0, 5, 30].entries()) {
      const problem = problemOf(s2, changeover, targets.split(' '));
      expect(exhaustiveOptimum(problem)).toBe((seconds[at] ?? 0) * 1000);
      expect(provedSeconds(problem)).toBe(seconds[at]);
      const plan = planOf(problem);
      expect(plan.filter((id) => id === '2' || id === '12')).toEqual([ways[at]]);
    }
  });
});
