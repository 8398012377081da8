import type { DeviceFastener } from '#record/device/device';
import { nameOf, type ReviewSource, sightWords } from './review-source.ts';
import { recordedSight } from './sight-answer.ts';

/** One fastener in words, and what its question was answered. */
export interface FastenerRow {
  readonly fastener: string;
  readonly name: string;
  readonly kind: string;
  readonly holds: string;
  readonly sight: string;
  readonly isAnswered: boolean;
  /** False where only a log names it, or nobody said what it holds: that comes before its question can be answered. */
  readonly isDescribed: boolean;
  /** True where the record holds it, with its ends or without: then the pass asks for what is missing. */
  readonly isRecorded: boolean;
}

/** Every fastener in words, in the record's order; those that only a log names last. */
export const fastenerRows = (source: ReviewSource): readonly FastenerRow[] =>
  [...source.device.fasteners.values()].map((fastener) => {
    const sight = recordedSight(fastener.id, source.device);
    return {
      fastener: fastener.id,
      name: nameOf(source, fastener.id),
      kind: kindWords(fastener),
      holds: holdsWords(source, fastener),
      sight: sightWords(source, sight),
      isAnswered: sight !== undefined,
      isDescribed: fastener.between !== undefined,
      isRecorded: fastener.record !== undefined,
    };
  });

/** Which fasteners hold a part, as its question shows them? */
export const holdersOf = (
  part: string,
  { device }: ReviewSource,
  rows: readonly FastenerRow[],
): readonly FastenerRow[] => {
  const crossing = new Set(device.parts.get(part)?.crossing ?? []);
  return rows.filter(({ fastener }) => crossing.has(fastener));
};

const kindWords = ({ kind, count, record }: DeviceFastener): string => {
  const words = kind.replaceAll('-', ' ');
  if (!record) return `${words}, by the log`;
  return count > 1 ? `${count} × ${words}` : words;
};

const holdsWords = (source: ReviewSource, { between }: DeviceFastener): string =>
  between === undefined
    ? 'not known'
    : between.map((end) => (end === 'chassis' ? 'chassis' : nameOf(source, end))).join(' to ');
