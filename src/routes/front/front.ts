import type { Fact, RouteProblem } from '../problem/route-problem.ts';
import { bestFound } from '../search/best-found.ts';
import type { Unreachable } from '../search/unreachable.ts';
import { costsOf, type FrontOptions, type FrontRoute, searchRoutes, valuedRoute } from './route-values.ts';

/** The front of steps, expected time and chance of damage, fewest steps first. */
export interface Front {
  readonly kind: 'front';
  readonly routes: readonly FrontRoute[];
  /**
   * True where no route is missing by the additive values that the search adds up (mean time, mean odds, one try an action);
   * values from `evaluate` are given to the routes of that front, and it may then lack a route that only they would favour.
   */
  readonly exact: boolean;
  readonly labels: number;
}

const isAsGood = (a: FrontRoute, b: FrontRoute): boolean =>
  a.steps <= b.steps && a.expectedMilliseconds <= b.expectedMilliseconds && a.damage <= b.damage;

/** Without routes that another beats or equals; of equals the first stays. */
const undominated = (routes: readonly FrontRoute[]): FrontRoute[] =>
  routes
    .filter(
      (route, at) =>
        !routes.some(
          (other, index) => index !== at && isAsGood(other, route) && (!isAsGood(route, other) || index < at),
        ),
    )
    .sort((a, b) => a.steps - b.steps || a.expectedMilliseconds - b.expectedMilliseconds || a.damage - b.damage);

/**
 * Which routes are on the front of steps, expected time and chance of damage: no other is as good in all three and better in
 * one? The best-found route is looked at first. Limits: see {@link Front.exact}.
 */
export const front = (
  problem: RouteProblem,
  target: Fact | readonly Fact[],
  options: FrontOptions,
): Front | Unreachable => {
  const targets = typeof target === 'string' ? [target] : target;
  const best = bestFound(problem, targets, options);
  if (best.kind === 'unreachable') return best;
  const known = [costsOf(best.actions, best.steps, best.milliseconds)];
  const found = searchRoutes(problem, targets, { ...options, known, objectives: [0, 1, 2] });
  const routes = [best.actions, ...found.routes].map((route) => valuedRoute(problem, route, { ...options, targets }));
  return { kind: 'front', routes: undominated(routes), exact: found.exact && best.proved, labels: found.labels };
};
