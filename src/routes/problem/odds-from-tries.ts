import { clopperPearson, noEventLimit, type Proportion } from '#quantity/proportion';
import type { WayOdds } from './route-problem.ts';

/** What became of the tries of a way on the bench? Successes damaged nothing; the rest failed without damage. */
export interface CountedTries {
  readonly successes: number;
  readonly damages: number;
  readonly tries: number;
}

/** Odds from a count, with what a count of no damage does not rule out. */
export interface CountedOdds extends WayOdds {
  /** Upper 95 % limit, one-sided, of the chance of damage where none was seen; undefined where one was. */
  readonly damageNotRuledOut: number | undefined;
}

/**
 * How likely is a way to work and to damage, going by counted tries? Means are the observed shares; the intervals are
 * Clopper and Pearson's exact 95 % ones, so that two of two says 16 % to 100 %. Undefined with no tries: nothing is known
 * then. Throws a RangeError for counts that are none or sum to more than the tries. See docs/method/odds.md.
 */
export const oddsFromTries = ({ successes, damages, tries }: CountedTries): CountedOdds | undefined => {
  if (successes + damages > tries)
    throw new RangeError(`${successes} successes and ${damages} damages are more than ${tries} tries`);
  if (tries === 0) return undefined;
  const confidence = 0.95;
  const share = (count: number): WayOdds['success'] =>
    withMean(clopperPearson({ count, tries, confidence }), count / tries);
  return {
    success: share(successes),
    damage: share(damages),
    tries,
    source: `${successes} of ${tries} tries came, ${damages} damaged; exact 95 % interval (Clopper-Pearson)`,
    damageNotRuledOut: damages === 0 ? noEventLimit(tries, 1 - confidence) : undefined,
  };
};

const withMean = ({ low, high }: Proportion, mean: number): WayOdds['success'] => ({ low, mean, high });
