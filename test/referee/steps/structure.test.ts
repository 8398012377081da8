import { expect, test } from 'vitest';
import { sharedBurden } from '#routes/front/shared-burden';
import { dominators } from '#routes/search/dominators';
import { fewestSteps } from '#routes/search/fewest-steps';
import { share } from '../../share.ts';
import { asFacts, asRouteProblem } from './ask.ts';
import { Draw } from './random.ts';
import type { SlowAction } from './slow-best.ts';
import { drawProblem, drawRules } from './small-problems.ts';

/** Facts reachable without some actions and without some fact, by doing whatever can be done until nothing changes. */
const reach = (actions: readonly SlowAction[], banned: string | undefined): Set<string> => {
  const facts = new Set<string>();
  for (let size = -1; size < facts.size; ) {
    size = facts.size;
    for (const action of actions) {
      const can =
        action.needs.every((fact) => facts.has(fact)) &&
        action.anyOf.every((clause) => clause.some((one) => one.every((fact) => facts.has(fact))));
      if (can) for (const fact of action.gives) if (fact !== banned) facts.add(fact);
    }
  }
  return facts;
};

test('dominators are exactly what the target cannot be reached without', () => {
  let some = 0;
  for (let seed = 1; seed <= share(200, 4000); seed++) {
    const draw = new Draw(seed + 900_000);
    const { problem, targets } = drawProblem(draw, 8 + draw.below(20));
    const usable = problem.actions.filter((action) => action.shown !== undefined && action.leaves !== 'destroyed');
    const [target = ''] = targets;
    const found = dominators(asRouteProblem(problem), asFacts([target])[0] ?? 'off/none', {});
    const all = reach(usable, undefined);
    if (!all.has(target)) {
      expect(found, `seed ${seed}`).toBeUndefined();
      continue;
    }
    const facts = [...all].filter((fact) => !reach(usable, fact).has(target)).sort();
    const actions = usable
      .filter(
        (dropped) =>
          !reach(
            usable.filter((action) => action !== dropped),
            undefined,
          ).has(target),
      )
      .map((action) => action.id)
      .sort();
    expect(found, `seed ${seed}`).toEqual({ facts, actions });
    if (actions.length < usable.length && actions.length > 2) some++;
  }
  expect(some).toBeGreaterThan(40);
}, 240_000);

test('the shared burden of a fastener is what the routes lose when it is taken as released', () => {
  let savers = 0;
  for (let seed = 1; seed <= share(25, 600); seed++) {
    const draw = new Draw(seed + 950_000);
    const { problem } = drawProblem(draw, 10 + draw.below(14));
    const rules = drawRules(draw, 0.1);
    const parts = problem.actions
      .filter((action) => action.id.startsWith('lift/'))
      .map((action) => `free/${action.id.slice(5)}`);
    const steps = (actions: readonly SlowAction[]): number[] =>
      parts.map((part) => {
        const found = fewestSteps(asRouteProblem({ ...problem, actions }), asFacts([part]), { rules });
        return found.kind === 'found' ? found.steps : Number.NaN;
      });
    const before = steps(problem.actions);
    const fasteners = new Set(
      problem.actions.flatMap((action) => action.gives.filter((fact) => fact.startsWith('released/'))),
    );
    const expected = [...fasteners]
      .map((release) => {
        // Taking the need away everywhere is the same as having it from the start.
        const without = (facts: readonly string[]): string[] => facts.filter((fact) => fact !== release);
        const freed = problem.actions.map((action) => ({
          ...action,
          needs: without(action.needs),
          anyOf: action.anyOf.map((clause) => clause.map(without)),
        }));
        const after = steps(freed);
        const saved = before.reduce((sum, count, at) => sum + (Number.isNaN(count) ? 0 : count - (after[at] ?? 0)), 0);
        return { fastener: release.slice(9), steps: saved };
      })
      .filter((burden) => burden.steps > 0);
    const found = sharedBurden(asRouteProblem(problem), asFacts(parts), { rules });
    const key = (burden: { fastener: string; steps: number }): string => `${burden.fastener} ${burden.steps}`;
    expect(found.map(key).sort(), `seed ${seed}`).toEqual(expected.map(key).sort());
    expect(found.map((burden) => -burden.steps)).toEqual(found.map((burden) => -burden.steps).sort((a, b) => a - b));
    savers += found.length;
  }
  expect(savers).toBeGreaterThan(25);
}, 240_000);
