import { expect, test } from 'vitest';
import { front } from '#routes/front/front';
import { leastDamage } from '#routes/front/least-damage';
import { share } from '../../share.ts';
import { asFacts, asOptions, asRouteProblem, drawPoints } from './ask.ts';
import { Draw } from './random.ts';
import { type SlowAction, type SlowProblem, type SlowQuestion, slowBest, slowFigures } from './slow-best.ts';
import { drawProblem, drawRules } from './small-problems.ts';

type Priced = SlowAction & { readonly odds?: { readonly damage: { readonly mean: number } } };

const withOdds = (draw: Draw, problem: SlowProblem): SlowProblem => {
  const odds = (mean: number) => ({
    success: { low: 1, mean: 1, high: 1 },
    damage: { low: mean, mean, high: mean },
    tries: 3,
    source: 'drawn',
  });
  return {
    ...problem,
    actions: problem.actions.map((action) =>
      draw.chance(0.6) ? { ...action, odds: odds(draw.below(4) / 16) } : action,
    ),
  };
};

const kept = (route: readonly SlowAction[]): number =>
  route.reduce((chance, action) => chance * (1 - ((action as Priced).odds?.damage.mean ?? 0)), 1);

/** Every sequence's steps, time and damage, without those another beats, as text so that equal points fall together. */
const slowFront = (problem: SlowProblem, question: SlowQuestion): string[] => {
  const points: number[][] = [];
  const usable = problem.actions.filter((action) => action.shown !== undefined && action.leaves !== 'destroyed');
  const route: SlowAction[] = [];
  const visit = (facts: ReadonlySet<string>): void => {
    if (question.targets.every((target) => facts.has(target))) {
      const { steps, milliseconds } = slowFigures(problem, route, question);
      points.push([steps, milliseconds, Math.round((1 - kept(route)) * 1e6)]);
      return;
    }
    for (const action of usable) {
      const can =
        !route.includes(action) &&
        action.needs.every((fact) => facts.has(fact)) &&
        action.anyOf.every((clause) => clause.some((one) => one.every((fact) => facts.has(fact))));
      if (!can) continue;
      route.push(action);
      visit(new Set([...facts, ...action.gives]));
      route.pop();
    }
  };
  visit(new Set());
  const beats = (a: number[], b: number[]): boolean =>
    a.every((value, at) => value <= (b[at] ?? 0)) && a.some((value, at) => value < (b[at] ?? 0));
  return [...new Set(points.filter((point) => !points.some((other) => beats(other, point))).map(String))].sort();
};

test('the front is what no sequence beats in steps, time and chance of damage', () => {
  let several = 0;
  let compared = 0;
  for (let seed = 1; compared < share(100, 2000); seed++) {
    const draw = new Draw(seed + 700_000);
    const drawn = drawProblem(draw, 6 + draw.below(8));
    const problem = withOdds(draw, drawn.problem);
    const rules = drawRules(draw, draw.one([0, 0.3]));
    const points = drawPoints(draw, problem);
    const question = { targets: drawn.targets, rules, fastenerPoints: points.fastener, toolPoints: points.tool };
    const slow = slowBest(problem, question, 400);
    if (!slow) continue;
    compared++;
    const targets = asFacts(drawn.targets);
    const found = front(asRouteProblem(problem), targets, asOptions(rules, points));
    if (found.kind === 'unreachable') {
      expect(slow.best, `seed ${seed}`).toBeUndefined();
      continue;
    }
    const expected = slowFront(problem, question);
    const got = found.routes.map(({ steps, expectedMilliseconds, damage }) =>
      String([steps, expectedMilliseconds, Math.round(damage * 1e6)]),
    );
    expect(found.exact, `seed ${seed}`).toBe(true);
    expect(got.sort(), `seed ${seed}`).toEqual(expected);
    if (got.length > 1) several++;
    const least = leastDamage(asRouteProblem(problem), targets, asOptions(rules, points));
    const lowest = Math.min(...expected.map((point) => Number(point.split(',')[2])));
    expect(least.kind === 'found' ? Math.round(least.damage * 1e6) : undefined, `seed ${seed}`).toBe(lowest);
  }
  expect(several).toBeGreaterThan(10);
}, 240_000);
