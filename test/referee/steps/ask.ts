import type { Fact, RouteProblem } from '#routes/problem/route-problem';
import type { Draw } from './random.ts';
import type { SlowProblem } from './slow-best.ts';
import type { SlowRules } from './slow-count.ts';

const FASTENER: Readonly<Record<string, number>> = { reusable: 5, resupplied: 3, removable: 1, destroyed: -1000 };

/** Points for a problem: by reuse class, and drawn by tool. */
export interface DrawnPoints {
  readonly fastener: (action: { readonly leaves?: string | undefined }) => number;
  readonly tool: (tool: string) => number;
}

/** Points drawn for a problem's tools. */
export const drawPoints = (draw: Draw, problem: SlowProblem): DrawnPoints => {
  const classes = new Map(problem.tools.map((tool) => [tool.id, 1 + draw.below(5)]));
  return { fastener: (action) => FASTENER[action.leaves ?? ''] ?? 5, tool: (tool) => classes.get(tool) ?? 5 };
};

/** The generated problem as the product takes it: the same data, the product's type. */
export const asRouteProblem = (problem: SlowProblem): RouteProblem => problem as unknown as RouteProblem;
/** Fact names as the product's type. */
export const asFacts = (facts: readonly string[]): Fact[] => facts as Fact[];

/** The options that both sides are asked with. */
export const asOptions = (rules: SlowRules, points: DrawnPoints) => ({ rules, points });
