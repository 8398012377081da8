import type { Fact } from '../problem/route-problem.ts';
import type { CountingRules } from '../steps/counting-rules.ts';
import { countSteps } from '../steps/step-counter.ts';
import { holdingAidsOf } from '../steps/stretch.ts';
import { reachable } from '../structure/reach.ts';
import type { Levels } from './levels.ts';
import type { LowerBounds } from './lower-bounds.ts';
import { boundsOf, searchTarget } from './minimal-route.ts';
import { withoutNeedless } from './needless.ts';
import { handTable, type SearchContext } from './search-context.ts';
import type { SearchLimits } from './search-limits.ts';
import { cutTarget, type TargetProblem } from './target-problem.ts';

/** What does the search for the fewest steps find? */
export interface FewestFirst {
  /** Steps of the route returned. */
  readonly steps: number;
  /** No route has fewer steps; equal to `steps` where proved. */
  readonly bound: number;
  /** A route by graph numbers: of the fewest steps where proved, else one that is possible. */
  readonly actions: readonly number[];
  readonly proved: boolean;
  readonly expanded: number;
  /** What the search ran on. */
  readonly prepared: { readonly target: TargetProblem; readonly bounds: LowerBounds };
}

/** Any route at all: what first becomes possible, in order, without what is needless. */
const plainRoute = (context: SearchContext, targets: readonly number[]): readonly number[] => {
  const { graph, usable, given } = context;
  const { order } = reachable(graph, usable, given);
  return withoutNeedless({ graph, given, targets }, order);
};

/**
 * What are the fewest steps to these targets, and one route that has them? Undefined where the targets cannot be reached. Steps
 * alone: leaving out a needless action never raises the count, so the route is returned without.
 */
export const fewestFirst = (
  context: SearchContext,
  search: {
    readonly targets: readonly Fact[];
    readonly levels: Levels;
    readonly limits: SearchLimits;
    readonly rules: CountingRules;
  },
): FewestFirst | undefined => {
  const target = cutTarget(context.graph, { ...context, targets: search.targets });
  if (!target) return undefined;
  const relevant = target.actions;
  const hands = handTable(context.graph, { rules: search.rules, keepsTime: false, actions: relevant });
  const bounds = boundsOf(context, { ...search, target, hands });
  const result = searchTarget(context, { ...search, target, bounds, hands, order: 'steps' });
  const prepared = { target, bounds: result.bounds };
  const { steps: bound, expanded } = result;
  if (result.outcome !== 'found') {
    const actions = plainRoute(context, target.targets);
    return { steps: stepsOf(context, actions, search.rules), bound, actions, proved: false, expanded, prepared };
  }
  const found = result.actions.map((action) => relevant[action] ?? 0);
  const actions = withoutNeedless({ ...context, targets: target.targets }, found);
  return { steps: bound, bound, actions, proved: true, expanded, prepared };
};

const stepsOf = ({ graph }: SearchContext, actions: readonly number[], rules: CountingRules): number =>
  countSteps(
    actions.flatMap((action) => graph.actions[action]?.atoms ?? []),
    rules,
    holdingAidsOf(graph.problem),
  ).total;
