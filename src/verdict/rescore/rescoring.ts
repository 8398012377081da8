import { METHOD_VERSION } from '#schemes/eu-2023-1669/method';
import type { ReadBy } from '../laboratory/with-laboratory.ts';
import { exactValue } from '../rubric/exact-text.ts';
import type { Rubric } from '../rubric/rubric-schema.ts';
import { type Ends, type Place, placesOf } from './places.ts';
import type { ChangeSplit, ScoreEnds } from './split-change.ts';

/** Which version of the method made the values of metrics and their split? Kept values of another are not used again. */
export const RESCORING_METHOD = `${METHOD_VERSION} rescoring/2`;

/** One record of an archive with its two scores and what made them differ. */
export interface RescoredItem extends ChangeSplit {
  /** Path within the archive: of the assessment's folder, or of its file. */
  readonly item: string;
  readonly product: string;
}

/** A record that could not be scored: where, what is wrong, and what to do. The others are scored all the same. */
export interface FailedItem {
  readonly item: string;
  readonly where: string;
  readonly message: string;
  readonly remedy: string;
}

/** A rubric as a rescoring names it. */
export interface NamedRubric {
  readonly id: string;
  readonly title: string;
  readonly edition: number;
  readonly date: string;
  readonly author: string;
  readonly invented: boolean;
  /** SHA-256 of its canonical JSON. */
  readonly digest: string;
}

/** One record with its places among all records that have a score. */
export interface PlacedItem extends RescoredItem {
  readonly placeBefore?: Place;
  readonly placeAfter?: Place;
}

/** An archive scored by two rubrics, or two archives by one or two. Same files and rubrics, same bytes. */
export interface Rescoring {
  readonly method: string;
  readonly before: NamedRubric;
  readonly after: NamedRubric;
  /** Whose readings hold where a record chooses none, before and after; absent where no laboratory's were given. */
  readonly readBy?: ReadBy;
  /** Are the facts after the change read from a second archive? */
  readonly twoArchives: boolean;
  /** In the order of their paths. They may lie on disk and be read as they are walked, as often as they are. */
  readonly items: Iterable<PlacedItem> & { readonly length: number };
  readonly failed: readonly FailedItem[];
  /** Paths that only one of two archives has. */
  readonly onlyBefore: readonly string[];
  readonly onlyAfter: readonly string[];
}

/** What is known of a rubric without its criteria? */
export const namedRubric = (rubric: Rubric, digest: string): NamedRubric => {
  const { id, title, edition, date, author, invented = false } = rubric;
  return { id, title, edition, date, author, invented, digest };
};

/** The scores of one record that its places are made from. */
export type PlacedScores = Pick<ChangeSplit, 'before' | 'after'>;

/** Which places has each of some records before and after, among all of them? By its number in the list. */
export const placesOfScores = (
  records: readonly PlacedScores[],
): ((index: number) => Pick<PlacedItem, 'placeBefore' | 'placeAfter'>) => {
  const before = placesOf(records.map((record) => endsOf(record.before)));
  const after = placesOf(records.map((record) => endsOf(record.after)));
  return (index) => {
    const [placeBefore, placeAfter] = [before[index], after[index]];
    return { ...(placeBefore ? { placeBefore } : {}), ...(placeAfter ? { placeAfter } : {}) };
  };
};

const endsOf = ({ low, high, mayBeNone }: ScoreEnds): Ends =>
  low === undefined || high === undefined ? undefined : { low: exactValue(low), high: exactValue(high), mayBeNone };
