import { compare, type Rational } from '#quantity/rational';

/** Both ends of one score; undefined where there is no score, hence no place. */
export type Ends = { readonly low: Rational; readonly high: Rational; readonly mayBeNone: boolean } | undefined;

/** The best and the worst place that one of several scores can take, 1 being the highest score. */
export interface Place {
  readonly best: number;
  readonly worst: number;
}

/**
 * Which place has each score among all of them, whichever way the open facts turn out? At best one behind those that are surely
 * higher, at worst one behind those that may be higher. A score that there may not be is never surely
 * higher. Equal settled scores share a place. Cost: n log n.
 */
export const placesOf = (scores: readonly Ends[]): readonly (Place | undefined)[] => {
  const there = scores.filter((score) => score !== undefined);
  const lows = there.flatMap(({ low, mayBeNone }) => (mayBeNone ? [] : [low])).sort(compare);
  const highs = there.map(({ high }) => high).sort(compare);
  return scores.map((score) => {
    if (!score) return undefined;
    const itself = compare(score.high, score.low) > 0 ? 1 : 0;
    return { best: 1 + countAbove(lows, score.high), worst: 1 + countAbove(highs, score.low) - itself };
  });
};

/** How many of the sorted numbers lie above a bound? By halving. */
const countAbove = (sorted: readonly Rational[], bound: Rational): number => {
  let [from, to] = [0, sorted.length];
  while (from < to) {
    const middle = (from + to) >> 1;
    const value = sorted[middle];
    if (value && compare(value, bound) > 0) to = middle;
    else from = middle + 1;
  }
  return sorted.length - from;
};
