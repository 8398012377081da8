import type { RouteAction } from '#routes/problem/route-problem';

/** The chance that an action of a route damages something, at the ends and the mean of the odds. */
export interface ChanceOfDamage {
  readonly low: number;
  readonly mean: number;
  readonly high: number;
  /** Actions without odds: they are counted as damaging nothing, which is not known of them. */
  readonly withoutOdds: readonly string[];
}

/**
 * How likely is it that a route damages something, if each of its actions is tried once? 1 - PRODUCT of (1 - d): tries
 * are taken as independent, so that the order does not matter. A route that ends early damages less.
 */
export const chanceOfDamage = (route: readonly RouteAction[]): ChanceOfDamage => {
  const chance = (end: 'low' | 'mean' | 'high'): number =>
    1 - route.reduce((product, { odds }) => product * (1 - (odds?.damage[end] ?? 0)), 1);
  const withoutOdds = route
    .filter((action) => action.odds === undefined)
    .map((action) => action.id)
    .sort();
  return { low: chance('low'), mean: chance('mean'), high: chance('high'), withoutOdds };
};
