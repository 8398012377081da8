import type { Fact, RouteProblem } from '../problem/route-problem.ts';
import { bestFound } from '../search/best-found.ts';
import type { Unreachable } from '../search/unreachable.ts';
import { type FrontOptions, type FrontRoute, searchRoutes, valuedRoute } from './route-values.ts';

/** The route with the highest chance of no damage; then least mean time. */
export interface LeastDamage extends FrontRoute {
  readonly kind: 'found';
  readonly proved: boolean;
}

/**
 * By which route is the chance of no damage highest, one try an action, outcomes independent? Among equals the least mean time,
 * then fewest steps. Where the label limit is met the best-found route may stand instead, and `proved` is false.
 */
export const leastDamage = (
  problem: RouteProblem,
  target: Fact | readonly Fact[],
  options: FrontOptions,
): LeastDamage | Unreachable => {
  const targets = typeof target === 'string' ? [target] : target;
  const best = bestFound(problem, targets, options);
  if (best.kind === 'unreachable') return best;
  const found = searchRoutes(problem, targets, { ...options, known: [], objectives: [2, 1, 0], firstOnly: true });
  const plain = { ...options };
  delete plain.evaluate;
  const routes = [best.actions, ...found.routes].map((route) => valuedRoute(problem, route, { ...plain, targets }));
  routes.sort((a, b) => a.damage - b.damage || a.expectedMilliseconds - b.expectedMilliseconds || a.steps - b.steps);
  const [chosen] = routes;
  return { kind: 'found', proved: found.exact, ...(chosen as FrontRoute) };
};
