import { expect, test } from 'vitest';
import { bestFound } from '#routes/search/best-found';
import { fewestSteps } from '#routes/search/fewest-steps';
import { share } from '../../share.ts';
import { asFacts, asOptions, asRouteProblem, drawPoints } from './ask.ts';
import { Draw } from './random.ts';
import { slowBest, slowFigures } from './slow-best.ts';
import { drawProblem, drawRules } from './small-problems.ts';

const CASES = share(520, 6000);
/** Problems with more sequences than this are passed over: trying everything would take too long. */
const MOST_SEQUENCES = 900;

test(`best found equals the best of all sequences, on ${CASES} generated problems`, () => {
  let [compared, unreachable, long] = [0, 0, 0];
  for (let seed = 1; compared < CASES; seed++) {
    const draw = new Draw(seed);
    const { problem, targets } = drawProblem(draw, 6 + draw.below(8));
    const rules = drawRules(draw, draw.one([0, 0, 0.3]));
    const points = drawPoints(draw, problem);
    const question = { targets, rules, fastenerPoints: points.fastener, toolPoints: points.tool };
    const slow = slowBest(problem, question, MOST_SEQUENCES);
    if (!slow) continue;
    compared++;
    const fast = bestFound(asRouteProblem(problem), asFacts(targets), asOptions(rules, points));
    const fewest = fewestSteps(asRouteProblem(problem), asFacts(targets), { rules });
    if (fast.kind === 'unreachable' || fewest.kind === 'unreachable') {
      unreachable++;
      expect(slow.best, `seed ${seed}`).toBeUndefined();
      expect(fewest.kind, `seed ${seed}`).toBe(fast.kind);
      continue;
    }
    if (fast.route.length >= 6) long++;
    expect([fast.proved, fewest.proved], `seed ${seed}`).toEqual([true, true]);
    expect([fewest.steps, slow.best?.steps], `seed ${seed}`).toEqual([slow.fewestOfAll, slow.fewestOfAll]);
    const figures = { steps: fast.steps, ...fast.points, milliseconds: fast.milliseconds };
    expect(figures, `seed ${seed}`).toEqual(slow.best);
    const route = fast.route.flatMap((id) => problem.actions.find((action) => action.id === id) ?? []);
    expect(slowFigures(problem, route, question), `seed ${seed}`).toEqual(slow.best);
  }
  expect(unreachable).toBeGreaterThan(0);
  expect(unreachable).toBeLessThan(CASES / 5);
  expect(long).toBeGreaterThan(CASES / 10);
}, 240_000);
