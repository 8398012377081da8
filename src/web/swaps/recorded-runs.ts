import { listed } from '#quantity/counts';
import type { Assessment, Swap } from '#record/schema/assessment';
import { type NamedSwap, standingSwaps } from '#record/standing-swaps';
import { ARM_NAMES, DONOR_NAMES } from '#swaps/model/fit-words';
import { isOwnFit } from '#swaps/model/piece-of';

/** One start of one specimen as it is on record: the fits that stand. */
export interface RecordedRun {
  readonly run: number;
  readonly host: string;
  readonly fits: readonly NamedSwap[];
  readonly isBrokenOff: boolean;
}

/** Which runs are on record, in their order? Fits without a number are in none. */
export const recordedRuns = ({ swaps }: Assessment): readonly RecordedRun[] => {
  const byRun = new Map<string, NamedSwap[]>();
  for (const [id, swap] of standingSwaps(swaps)) {
    if (swap.run === undefined) continue;
    const key = `${swap.run} ${swap.specimen}`;
    byRun.set(key, [...(byRun.get(key) ?? []), [id, swap]]);
  }
  return [...byRun.values()].map((fits) => ({
    run: fits[0]?.[1].run ?? 0,
    host: fits[0]?.[1].specimen ?? '',
    fits,
    isBrokenOff: fits.some(([, { interrupted }]) => interrupted === true),
  }));
};

/** Which number has the next run? One more than the highest there ever was, withdrawn ones too. */
export const nextRunNumber = ({ swaps = {} }: Assessment): number =>
  Math.max(0, ...Object.values(swaps).map(({ run = 0 }) => run)) + 1;

/** How is a specimen called? */
export const specimenName = ({ specimens }: Assessment, specimen: string): string =>
  specimens?.[specimen]?.name ?? `specimen ${specimen}`;

/** How is a part called? */
export const partName = ({ parts }: Assessment, part: string): string => parts?.[part]?.name ?? part;

/** What was fitted, in words: the own part, that of another specimen, or a piece from elsewhere. */
export const pieceWords = (document: Assessment, swap: Swap): string => {
  if (isOwnFit(swap) === true) return 'own part';
  if (!swap.donor) return 'foreign part, not named';
  const { item, specimen, kind } = swap.donor;
  if (item !== undefined) return `${item} (${DONOR_NAMES[kind]})`;
  return specimen === undefined ? DONOR_NAMES[kind] : `that of ${specimenName(document, specimen)}`;
};

/** A run in a line, for lists: which parts, on what, with what effects. */
export const runLine = (document: Assessment, { fits }: RecordedRun): string => {
  const arms = [...new Set(fits.flatMap(([, { arm }]) => (arm === undefined ? [] : [ARM_NAMES[arm]])))];
  const parts = fits.map(
    ([, { part, effect }]) => `${partName(document, part)}${effect === undefined ? '' : ` ${effect}`}`,
  );
  return `${listed(arms)}${arms.length > 0 ? ': ' : ''}${parts.join(', ')}`;
};
