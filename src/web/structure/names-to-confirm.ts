import type { Device } from '#record/device/device';
import type { Assessment, Entry } from '#record/schema/assessment';
import { standingEntries } from '#record/standing-entries';
import { entryWords } from '../bench/live/entry-words.ts';

/** An entry whose name waits for the review. */
export interface NameToConfirm {
  readonly session: string;
  readonly entry: string;
  readonly at: number;
  readonly words: string;
  /** A name was taken as suggested; or a time was marked and nobody said what it was. */
  readonly kind: 'suggested' | 'unnamed';
}

/** Which names wait for the review? Of the entries that stand, session after session in the order of their starts. */
export const namesToConfirm = (document: Assessment, device: Device): readonly NameToConfirm[] =>
  Object.entries(document.sessions ?? {})
    .sort(([, a], [, b]) => Date.parse(a.start) - Date.parse(b.start))
    .flatMap(([session, record]) =>
      standingEntries(record).flatMap(([entry, said]) => {
        const kind = waitsAs(said);
        return kind ? [{ session, entry, at: said.at, words: entryWords(said, device), kind }] : [];
      }),
    );

const waitsAs = (entry: Entry): NameToConfirm['kind'] | undefined => {
  if (entry.do === undefined) return entry.note === undefined && entry.began === undefined ? 'unnamed' : undefined;
  return entry.naming === 'suggested' && entry.reviewed !== true ? 'suggested' : undefined;
};
