import type { RouteAction } from '../problem/route-problem.ts';

/** One natural unit of log chance, in the integers the search adds up. */
const LOG_UNIT = 1_000_000_000;

/** How likely does an action damage something, on one try? The mean of its odds; none known counts as none. */
const damageOf = (action: RouteAction): number => action.odds?.damage.mean ?? 0;

/**
 * What does an action add to the log of the chance that nothing is damaged? −ln(1 − d) in units of 10⁻⁹, rounded; certain
 * damage is given the largest number that still adds up safely.
 */
export const logDamage = (action: RouteAction): number => {
  const kept = 1 - damageOf(action);
  return kept <= 0 ? 1_000 * LOG_UNIT : Math.round(-Math.log(kept) * LOG_UNIT);
};

/** How likely does a route damage something, one try an action, outcomes independent? */
export const routeDamage = (route: readonly RouteAction[]): number =>
  1 - route.reduce((kept, action) => kept * (1 - damageOf(action)), 1);
