import { lastCorrection } from './last-correction.ts';
import type { Swap } from './schema/assessment.ts';

/**
 * Which fits stand, in the order of their runs? A corrected one gives way to its correction, which keeps the number of the run
 * where it names none of its own; a withdrawn one leaves nothing. Fits without a number come last; those of one number, and those
 * without, by their moment, then as the record lists them. Where two correct the same fit, the one with the later moment stands,
 * else the one listed later. Cost: that of the sort.
 */
export const standingSwaps = (swaps: Readonly<Record<string, Swap>> = {}): readonly NamedSwap[] => {
  const all = Object.entries(swaps);
  const corrections = correctionsOf(all);
  const standing: NamedSwap[] = [];
  for (const [id, swap] of all) {
    if (swap.corrects !== undefined && Object.hasOwn(swaps, swap.corrects)) continue;
    const [lastId, last] = lastCorrection([id, swap], corrections);
    if (last.withdrawn !== true) standing.push([lastId, inPlaceOf(swap, last)]);
  }
  const listed = new Map(standing.map(([id], place) => [id, place]));
  const key = ([id, { run, on }]: NamedSwap): Key => [
    run ?? Number.POSITIVE_INFINITY,
    on === undefined ? Number.POSITIVE_INFINITY : Date.parse(on),
    listed.get(id) ?? 0,
  ];
  return standing.sort((a, b) => compareKeys(key(a), key(b)));
};

/** A fit of the record that stands, with its id. */
export type NamedSwap = readonly [id: string, swap: Swap];

const correctionsOf = (swaps: readonly NamedSwap[]): ReadonlyMap<string, NamedSwap> => {
  const corrections = new Map<string, NamedSwap>();
  for (const [id, swap] of swaps) {
    if (swap.corrects === undefined) continue;
    const other = corrections.get(swap.corrects);
    if (other && momentOf(other[1]) > momentOf(swap)) continue;
    corrections.set(swap.corrects, [id, swap]);
  }
  return corrections;
};

const momentOf = ({ on }: Swap): number => (on === undefined ? Number.NEGATIVE_INFINITY : Date.parse(on));

type Key = readonly [run: number, moment: number, listed: number];

const inPlaceOf = (first: Swap, last: Swap): Swap =>
  last.run === undefined && first.run !== undefined ? { ...last, run: first.run } : last;

const compareKeys = (a: Key, b: Key): number => {
  for (const [index, value] of a.entries()) if (value !== b[index]) return value < (b[index] ?? 0) ? -1 : 1;
  return 0;
};
