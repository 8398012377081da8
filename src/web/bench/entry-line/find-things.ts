import { distance } from 'fastest-levenshtein';
import { type BenchThing, wordsOf } from './bench-things.ts';
import { KINDS_OF_ACTION, OPPOSITE_PLACES } from './lexicon.ts';

/** A thing that a line may mean, and how well it fits: 0 is not at all. */
export interface Candidate {
  readonly thing: BenchThing;
  readonly fit: number;
}

/** What else a search goes by besides words. */
export interface SearchHints {
  readonly action: string | undefined;
  readonly count: number | undefined;
  /** Places said beside the name: a thing named after the opposite place is another. */
  readonly place?: readonly string[];
  /** Ids of what is off already: it is thought of last. */
  readonly off: ReadonlySet<string>;
  /** Ids used of late, the last first. */
  readonly recent: readonly string[];
}

/**
 * Which things may these words mean? Best first; things of equal fit stand in the order of their names, and whoever asks must
 * then choose. A word fits another it begins or is one letter away from; every word given must fit.
 */
export const findThings = (
  things: readonly BenchThing[],
  words: readonly string[],
  hints: SearchHints,
): readonly Candidate[] =>
  things
    .filter((thing) => !isAnother(thing, words, hints))
    .map((thing): Candidate => ({ thing, fit: fitOf(thing, words, hints) }))
    .filter(({ fit }) => fit > 0)
    .sort((a, b) => b.fit - a.fit || (a.thing.name < b.thing.name ? -1 : 1));

/** Actions that move a part: a fastener is meant by them only where its whole name is said ("lift battery" is not the battery's flex). */
const MOVES: ReadonlySet<string> = new Set(['lift', 'fold-aside']);

const isAnother = (thing: BenchThing, words: readonly string[], { action, place = [] }: SearchHints): boolean => {
  const name = wordsOf(thing.name);
  const isOpposite = place.some((said) => OPPOSITE_PLACES[said]?.some((other) => name.includes(other)));
  const isPartly = thing.fastener !== undefined && MOVES.has(action ?? '') && !name.every((own) => words.includes(own));
  return isOpposite || isPartly;
};

const fitOf = (thing: BenchThing, words: readonly string[], { action, count, off, recent }: SearchHints): number => {
  if (words.length === 0) return 0;
  const fits = words.map((word) => Math.max(0, ...thing.words.map((own) => wordFit(word, own))));
  if (fits.some((fit) => fit === 0)) return 0;
  const named = (fits.reduce((sum, fit) => sum + fit, 0) * 10) / words.length;
  const kinds = KINDS_OF_ACTION[action ?? ''];
  const suits = thing.fastener ? (kinds?.includes(thing.fastener.kind) ? 4 : kinds ? -3 : 0) : kinds ? -1 : 2;
  const counted = count !== undefined && thing.fastener?.count === count ? 1 : 0;
  const recency = recent.includes(thing.key) ? 0.5 : 0;
  const extra = Math.max(0, thing.words.length - words.length) * 0.05;
  return Math.max(0.01, named + suits + counted + recency - extra - (off.has(thing.key) ? 3 : 0));
};

const wordFit = (word: string, own: string): number => {
  if (word === own) return 1;
  if (word.length >= 2 && own.startsWith(word)) return 0.8;
  if (own.length >= 4 && word.startsWith(own)) return 0.7;
  return word.length >= 5 && distance(word, own) === 1 ? 0.6 : 0;
};
