import type { RouteSource } from '../problem/from-record.ts';
import type { SequenceItem } from './bench-sequence.ts';

/**
 * On which log entries does an item of a sequence rest? For a planned action all that did it on a bench; for a logged one the
 * entry itself and the evidence it names.
 */
export const itemEvidence = ({ address, evidence }: SequenceItem, { experience }: RouteSource): readonly string[] => {
  if (address.startsWith('release/')) return experience.ways.get(address.slice('release/'.length))?.entries ?? [];
  if (!address.startsWith('lift/') && !address.startsWith('fold/')) return [address, ...evidence];
  const part = address.split('/')[1] ?? '';
  const becomes = address.startsWith('lift/') ? 'free' : 'aside';
  return (experience.removals.get(part) ?? [])
    .filter((removal) => removal.becomes === becomes)
    .flatMap((removal) => removal.entries);
};

/** The items of a planned route with the entries they rest on, so that a figure made of them walks back to the bench. */
export const evidencedItems = (items: readonly SequenceItem[], source: RouteSource): readonly SequenceItem[] =>
  items.map((item) => ({ ...item, evidence: itemEvidence(item, source) }));
