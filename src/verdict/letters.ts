import { distanceToThreshold } from '#schemes/eu-2023-1669/classes';
import type { IndexForm } from '#schemes/eu-2023-1669/index-figures';
import type { Interpretations } from '#schemes/eu-2023-1669/interpretations';
import type { IndexBasis } from './index-bases.ts';
import type { BasisVerdict } from './verdict.ts';

/** Which letter does a form give under the chosen rounding? */
export const letterOf = (figures: IndexForm, readings: Pick<Interpretations, 'rounding'>): string | null =>
  readings.rounding === 'rounded' ? figures.classRounded : figures.classUnrounded;

/** The letters of the scale, best first. */
export const LETTERS: readonly string[] = ['A', 'B', 'C', 'D', 'E'];

/** Which letters are still possible on a basis under these readings? All from the best end to the worst. */
export const lettersOf = (basis: IndexBasis, readings: Interpretations): readonly string[] =>
  lettersBetween({ low: basis.low ?? basis.figures, high: basis.high ?? basis.figures }, readings);

/** Which letters lie between two forms? */
export const lettersBetween = (
  ends: { readonly low: IndexForm; readonly high: IndexForm },
  readings: Interpretations,
): readonly string[] => {
  const low = letterOf(ends.low, readings);
  const high = letterOf(ends.high, readings);
  if (low === null || high === null) return [low, high].flatMap((letter) => letter ?? []);
  return LETTERS.slice(LETTERS.indexOf(high), LETTERS.indexOf(low) + 1);
};

/** Which letters are left on one basis under some readings, and may there be no score? */
export interface LettersLeft {
  readonly letters: readonly string[];
  readonly mayBeNotScorable: boolean;
}

/**
 * Is the letter settled (none at all, where the product is settled to be below the scale), open, or a matter of reading?
 * `others` is what is left on the same basis under each other reading; without it that is not weighed yet.
 */
export const letterState = (
  { letters, mayBeNotScorable }: LettersLeft,
  others: readonly LettersLeft[] | undefined,
): BasisVerdict['letter'] => {
  if (letters.length > 1 || mayBeNotScorable) return { state: 'open', letters };
  if (!others) return { state: 'unweighed', letters };
  const all = [...new Set([...letters, ...others.flatMap((other) => other.letters)])].sort();
  const isNone = letters.length === 0;
  const canBeNone = isNone || others.some((other) => other.mayBeNotScorable || other.letters.length === 0);
  return all.length === letters.length && canBeNone === isNone
    ? { state: 'settled', letters }
    : { state: 'interpretation-dependent', letters: all, ...(canBeNone ? { orNotScorable: true as const } : {}) };
};

/** How far is R from the nearest threshold? Undefined while R is open. */
export const distanceOf = (figures: IndexForm): BasisVerdict['distance'] => {
  if (figures.R === null) return undefined;
  const distance = distanceToThreshold(Math.round(Number(figures.R) * 10_000));
  return { toThreshold: distance.distance, threshold: distance.threshold, letterBeyond: distance.letterBeyond };
};
