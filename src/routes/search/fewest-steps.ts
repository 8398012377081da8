import type { Fact, RouteAction, RouteProblem } from '../problem/route-problem.ts';
import { fewestFirst } from './fewest-first.ts';
import { levelTable, type StepSearchOptions, searchContext } from './search-context.ts';
import { DEFAULT_LIMITS, type SearchLimits, startedLimits } from './search-limits.ts';
import { type Unreachable, whyUnreachable } from './unreachable.ts';

/** What does a search for the fewest steps need to be told? */
export interface FewestStepsOptions extends StepSearchOptions {
  readonly limits?: SearchLimits;
}

/** The fewest steps to some targets. */
export interface FewestSteps {
  readonly kind: 'found';
  /** Steps of the route; the fewest there are where `proved`. */
  readonly steps: number;
  /** No route has fewer. */
  readonly bound: number;
  readonly proved: boolean;
  readonly route: readonly string[];
  readonly actions: readonly RouteAction[];
  readonly expanded: number;
}

const noPoints = { fastener: () => 5, tool: () => 5 };

/** What are the fewest steps to the targets, points and time aside? Exact unless a limit is met; then `bound` holds. */
export const fewestSteps = (
  problem: RouteProblem,
  target: Fact | readonly Fact[],
  options: FewestStepsOptions,
): FewestSteps | Unreachable => {
  const targets = typeof target === 'string' ? [target] : target;
  const context = searchContext(problem, options);
  const found = fewestFirst(context, {
    targets,
    levels: levelTable(context.graph, noPoints, options.rules),
    limits: startedLimits(options.limits ?? DEFAULT_LIMITS),
    rules: options.rules,
  });
  if (!found) return whyUnreachable(problem, targets, options);
  const actions = found.actions.flatMap((action) => context.graph.actions[action] ?? []);
  const { proved, bound, steps, expanded } = found;
  return { kind: 'found', steps, bound, proved, route: actions.map((action) => action.id), actions, expanded };
};
