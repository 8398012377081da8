import { limitWords } from '../limit-words.ts';
import { limits } from '../limits.ts';
import type { Swap } from '../schema/assessment.ts';
import { standingSwaps } from '../standing-swaps.ts';
import type { LinkContext } from './check-links.ts';
import { itemsOf, textOf } from './plain.ts';

/** Are the fits that stand as few as are diagnosed together? The first part beyond is named, then all parts together. */
export const checkSwapSizes = ({ data, findings }: LinkContext): void => {
  // What has the wrong shape is passed over: the schema check reports it.
  const standing = standingSwaps(Object.fromEntries(itemsOf(data.swaps)) as unknown as Readonly<Record<string, Swap>>);
  const counts = new Map<string, number>();
  for (const [id, swap] of standing) {
    const part = textOf(swap.part) ?? '';
    const count = (counts.get(part) ?? 0) + 1;
    counts.set(part, count);
    if (count === limits.partFits + 1) findings.add(['swaps', id, 'part'], limitWords('partFits', part));
  }
  if (standing.length > limits.swapFits) findings.add(['swaps'], limitWords('swapFits'));
};
