import type { Fact, RouteAction, RouteAtom, RouteProblem } from '../problem/route-problem.ts';
import type { RoutePoints } from '../steps/stretch.ts';
import { fewestFirst } from './fewest-first.ts';
import { minimalRoute } from './minimal-route.ts';
import { type RouteFigures, routeFigures } from './route-figures.ts';
import { handTable, levelTable, type SearchContext, type StepSearchOptions, searchContext } from './search-context.ts';
import { DEFAULT_LIMITS, type SearchLimits, startedLimits } from './search-limits.ts';
import { type Unreachable, whyUnreachable } from './unreachable.ts';

/** What does a search for the best-found route need to be told? */
export interface BestFoundOptions extends StepSearchOptions {
  readonly points: RoutePoints;
  readonly limits?: SearchLimits;
}

/** A route with its figures. */
export interface BestFound extends RouteFigures {
  readonly kind: 'found';
  /** Action ids in order. */
  readonly route: readonly string[];
  readonly actions: readonly RouteAction[];
  readonly atoms: readonly RouteAtom[];
  /** True where no route has fewer steps, nor as few and higher points, nor all that and less time. */
  readonly proved: boolean;
  /** No route has fewer steps than this; equal to `steps` where the steps are proved. */
  readonly bound: number;
  /** States taken up by the search. */
  readonly expanded: number;
}

/**
 * By which route is a part reached best? Fewest steps; among all such routes the highest fastener + tool points over the last
 * stretch; then least time; then the higher fastener points. Only routes without a needless action. The figures depend on
 * neither names nor the order of input; among routes with equal figures the structure decides, and ids last of all.
 *
 * Exact unless a limit is met; then `proved` is false and `bound` says what is still possible. Cost: exponential at worst
 * (the problem is NP-hard), well under a millisecond on device-sized parts. See docs/method/best-found.md.
 */
export const bestFound = (
  problem: RouteProblem,
  target: Fact | readonly Fact[],
  options: BestFoundOptions,
): BestFound | Unreachable => {
  const targets = typeof target === 'string' ? [target] : target;
  const context = searchContext(problem, options);
  const levels = levelTable(context.graph, options.points, options.rules);
  const limits = startedLimits(options.limits ?? DEFAULT_LIMITS);
  const fewest = fewestFirst(context, { targets, levels, limits, rules: options.rules });
  if (!fewest) return whyUnreachable(problem, targets, options);
  const figures = (actions: readonly number[]): RouteFigures =>
    routeFigures(problem, routeOf(context, actions), { ...options, targets });
  const { steps, bound, expanded } = fewest;
  const unproved = { actions: fewest.actions, proved: false, expanded };
  if (!fewest.proved) return describe(context, { ...unproved, bound }, figures);
  const table = { rules: options.rules, actions: fewest.prepared.target.actions };
  const found = minimalRoute(context, {
    targets,
    levels,
    limits: { ...limits, nodes: Math.max(1, limits.nodes - expanded) },
    hands: handTable(context.graph, { ...table, keepsTime: true }),
    stepHands: handTable(context.graph, { ...table, keepsTime: false }),
    prepared: fewest.prepared,
    steps,
    figures,
  });
  if (!found) return describe(context, { ...unproved, bound }, figures);
  return describe(context, { ...found, bound, expanded: expanded + found.expanded }, figures);
};

const routeOf = ({ graph }: SearchContext, actions: readonly number[]): RouteAction[] =>
  actions.flatMap((action) => graph.actions[action] ?? []);

interface Chosen {
  readonly actions: readonly number[];
  readonly proved: boolean;
  readonly bound: number;
  readonly expanded: number;
}

const describe = (
  context: SearchContext,
  { actions, proved, bound, expanded }: Chosen,
  figures: (actions: readonly number[]) => RouteFigures,
): BestFound => {
  const route = routeOf(context, actions);
  return {
    kind: 'found',
    ...figures(actions),
    route: route.map((action) => action.id),
    actions: route,
    atoms: route.flatMap((action) => action.atoms),
    proved,
    bound,
    expanded,
  };
};
