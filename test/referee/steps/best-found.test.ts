import { expect, test } from 'vitest';
import { bestFound } from '#routes/search/best-found';
import type { Fact, RouteProblem } from '#routes/problem/route-problem';
import { share } from '../../share.ts';
import { Draw } from './random.ts';
import { type SlowAction, slowBest } from './slow-best.ts';
import { drawProblem, drawRules } from './small-problems.ts';

const FASTENER: Record<string, number> = { reusable: 5, resupplied: 3, removable: 1, destroyed: -1000 };
const CASES = share(600, 5000);

test(`best found equals the best of all sequences, on ${CASES} generated problems`, () => {
  let compared = 0;
  let unreachable = 0;
  for (let seed = 1; compared < CASES; seed++) {
    const draw = new Draw(seed);
    const { problem, targets } = drawProblem(draw, 5 + draw.below(6));
    const rules = drawRules(draw, draw.one([0, 0, 0.3]));
    const classes = new Map(problem.tools.map((tool) => [tool.id, 1 + draw.below(5)]));
    const fastenerPoints = (action: { leaves?: string | undefined }): number => FASTENER[action.leaves ?? ''] ?? 5;
    const toolPoints = (tool: string): number => classes.get(tool) ?? 5;
    const slow = slowBest(problem, { targets, rules, fastenerPoints, toolPoints }, 4000);
    if (!slow) continue;
    compared++;
    const fast = bestFound(problem as unknown as RouteProblem, targets as Fact[], {
      rules,
      points: { fastener: (action) => fastenerPoints(action as unknown as SlowAction), tool: toolPoints },
    });
    if (fast.kind === 'unreachable') {
      unreachable++;
      expect(slow.best, `seed ${seed}`).toBeUndefined();
      continue;
    }
    expect(fast.proved).toBe(true);
    expect(slow.best?.steps, `seed ${seed}`).toBe(slow.fewestOfAll);
    expect({ steps: fast.steps, ...fast.points, milliseconds: fast.milliseconds }, `seed ${seed}`).toEqual(slow.best);
  }
  expect(unreachable).toBeGreaterThan(0);
  expect(unreachable).toBeLessThan(CASES / 3);
});
