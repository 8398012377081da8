import type { Entry } from '#record/schema/assessment';
import type { NewThing } from '../commands/new-thing.ts';
import type { BenchThing } from './bench-things.ts';
import { type Candidate, findThings, type SearchHints } from './find-things.ts';
import { keyForName } from './key-for-name.ts';
import { FASTENED_BY, FASTENER_WORDS, SORT_WORDS, WHOLE_ACTIONS } from './lexicon.ts';
import { countedNaming, type LineNaming } from './line-naming.ts';
import { isDrive, type LineOrder, type LineWords, sortWords } from './sort-words.ts';

/** What a line was understood to say. */
export interface LineReading {
  /** An order to the bench rather than an action: a goal, a pause, a retake, an incident. */
  readonly order?: LineOrder;
  /** What would be entered; without a target while a choice is needed. */
  readonly naming: LineNaming;
  /** Things the words may mean, best first. */
  readonly candidates: readonly Candidate[];
  /** Two or more fit equally well: whoever writes must choose, and nothing is entered before. */
  readonly needsChoice: boolean;
  /** Words for a thing that nothing on the bench fits: it would appear under this key, called so. */
  readonly newTarget?: NewThing;
  /** Words that were not understood; they are kept as the note. */
  readonly left: string;
  /** How many characters a note cannot hold; they would not be kept. */
  readonly cut: number;
  /** Each thing understood, in words, for the line below the line. */
  readonly understood: readonly string[];
  /** What would be entered if the target were this thing. */
  readonly namingFor: (thing: BenchThing | undefined) => LineNaming;
}

/** What a line is read with besides the things: what is off, what was used of late, and the last set worked on. */
type LineHints = Omit<SearchHints, 'action' | 'count'> & {
  readonly lastSet?: Pick<Entry, 'do' | 'target' | 'tools'> | undefined;
  /** Does the record describe its parts and fasteners, so that a new one is taken in with all that is said of it? */
  readonly isDescribed?: boolean;
};

/** How near the best two candidates must be to be a choice and no answer. */
const CLOSE = 0.3;
/** Longest note the record takes [characters]. */
const LONGEST_NOTE = 10_000;
/** A name of more words than this is a sentence. */
const LONGEST_NAME = 8;

/**
 * What does an entry line say? Nothing is dropped and nothing guessed silently: what is not understood becomes the note and is
 * flagged, what may mean several things says so and has no target until one is chosen. Never throws.
 */
export const readLine = (line: string, things: readonly BenchThing[], hints: LineHints): LineReading => {
  const words = sortWords(line, things);
  if (words.order) return asOrder(words.order, words.note, things);
  if (words.action === undefined && words.outcome.outcome === undefined) return asNote(line);
  const named = things.filter(({ kind }) => kind !== 'tool');
  if (words.action === undefined && words.target.length === 0 && words.outcome.outcome === 'partial' && hints.lastSet)
    return ofThing(words, named, hints.lastSet);
  const candidates = findThings(named, words.target, hintsOf(words, hints));
  const [best] = candidates;
  const holds = newSetOn(words, best?.thing, needsChoiceOf(candidates));
  if (best === undefined || holds) return withoutThing(words, things, { ...hints, holds });
  const needsChoice = needsChoiceOf(candidates);
  const target = needsChoice ? undefined : best.thing;
  const said = needsChoice ? `"${words.target.join(' ')}"?` : best.thing.name;
  return reading(words, { candidates, needsChoice, target, said });
};

const needsChoiceOf = ([best, next]: readonly Candidate[]): boolean =>
  best !== undefined && next !== undefined && best.fit - next.fit < CLOSE;

/** What is unscrewed, unplugged or desoldered is never a part: where nothing else fits it is a new fastener on that part. */
const newSetOn = (
  { action }: LineWords,
  thing: BenchThing | undefined,
  needsChoice: boolean,
): BenchThing | undefined => (isFastening(action) && thing?.kind === 'part' && !needsChoice ? thing : undefined);

const hintsOf = ({ action, count, place }: LineWords, hints: LineHints): SearchHints => ({
  ...hints,
  action,
  count,
  place,
});

interface Understood {
  readonly candidates: readonly Candidate[];
  readonly needsChoice: boolean;
  readonly target: BenchThing | undefined;
  readonly said: string | undefined;
}

const reading = (words: LineWords, { candidates, needsChoice, target, said }: Understood): LineReading => {
  const namingFor = (thing: BenchThing | undefined): LineNaming => countedNaming(words, thing);
  const naming = namingFor(target);
  return {
    naming,
    candidates,
    needsChoice,
    left: naming.note ?? '',
    cut: Math.max(0, words.note.length - LONGEST_NOTE),
    understood: understoodOf(words, said),
    namingFor,
  };
};

/** `partial 3/4` by itself is said of the set that was worked on last. */
const ofThing = (
  words: LineWords,
  things: readonly BenchThing[],
  lastSet: NonNullable<LineHints['lastSet']>,
): LineReading => {
  const target = things.find(({ key }) => key === lastSet.target);
  const action = lastSet.do;
  return reading({ ...words, action }, { candidates: [], needsChoice: false, target, said: target?.name });
};

interface NewHints {
  readonly isDescribed?: boolean;
  /** The part that it holds, where the words name one. */
  readonly holds: BenchThing | undefined;
}

/** Nothing fits: words for something new where the action is done on a thing, else a note. */
const withoutThing = (words: LineWords, things: readonly BenchThing[], hints: NewHints): LineReading => {
  const { action, target } = words;
  const nothing = { candidates: [], needsChoice: false, target: undefined, said: undefined };
  const isName = target.length > 0 && target.length <= LONGEST_NAME;
  if (action === undefined || WHOLE_ACTIONS.has(action) || !isName) {
    const note = [...target, words.note].filter(Boolean).join(' ');
    return reading({ ...words, note, target: [] }, nothing);
  }
  const name = newName(words, hints.holds);
  const key = keyForName(name, (taken) => things.some((thing) => thing.key === taken));
  const fastener = newFastener(words, hints.holds ?? partNamed(target, things));
  const fresh: BenchThing = { key, kind: fastener ? 'fastener' : 'part', name, words: target };
  const isSaid = fastener !== undefined && hints.isDescribed === true;
  const note = [words.note, ...(isSaid ? [] : unsaidOf(words))].filter(Boolean).join(' ');
  const holds = fastener?.between ? things.find((thing) => thing.key === fastener.between?.[0])?.name : undefined;
  const said = `${name} (new${holds === undefined ? '' : `, holds ${holds}`})`;
  return {
    ...reading({ ...words, place: [], note }, { ...nothing, target: fresh, said }),
    newTarget: { key, name, ...(fastener ? { fastener } : {}) },
  };
};

/** What is known of a fastener by the line that names it first: its kind by the action, its count and drive, the part it holds. */
const newFastener = ({ action, count, target }: LineWords, holds: BenchThing | undefined): NewThing['fastener'] => {
  if (!isFastening(action)) return undefined;
  const drive = target.find(isDrive);
  return {
    kind: FASTENED_BY[action],
    ...(count === undefined || count < 1 ? {} : { count }),
    ...(drive === undefined ? {} : { drive: drive.toUpperCase() }),
    ...(holds === undefined ? {} : { between: [holds.key, 'chassis'] }),
  };
};

const isFastening = (action: Entry['do']): action is keyof typeof FASTENED_BY =>
  action !== undefined && Object.hasOwn(FASTENED_BY, action);

/** Which one part do the words name, those apart that say what sort of fastener it is? Undefined where none or several fit. */
const partNamed = (target: readonly string[], things: readonly BenchThing[]): BenchThing | undefined => {
  const words = target.filter((word) => !isDrive(word) && !FASTENER_WORDS.has(word));
  const parts = things.filter(({ kind }) => kind === 'part');
  const [best, next] = findThings(parts, words, { action: undefined, count: undefined, off: new Set(), recent: [] });
  return best && (next === undefined || best.fit - next.fit >= CLOSE) ? best.thing : undefined;
};

/** How is a new thing called? With its place, since the lower tab is not the upper one; what is unscrewed is its screws. */
const newName = ({ action, target, place }: LineWords, holds: BenchThing | undefined): string => {
  const named = target.filter((word) => !isDrive(word));
  const words = named.length > 0 ? named : target;
  const isSet = words.some((word) => FASTENER_WORDS.has(word));
  const sort = action === 'unscrew' ? 'screws' : holds && isFastening(action) ? SORT_WORDS[action] : undefined;
  const whole = [...place, ...(holds ? [holds.name] : words)];
  const own = holds ? words.filter((word) => FASTENER_WORDS.has(word)) : [];
  return [...whole, ...own, ...(isSet || sort === undefined ? [] : [sort])].join(' ');
};

/** What was said of a new thing and has no field yet: how many, and which drive. */
const unsaidOf = ({ count, target }: LineWords): readonly string[] => {
  const drives = target.filter(isDrive);
  return [...(count === undefined ? [] : [`(${count} of them)`]), ...(drives.length < target.length ? drives : [])];
};

const EMPTY: LineReading = {
  naming: {},
  candidates: [],
  needsChoice: false,
  left: '',
  cut: 0,
  understood: [],
  namingFor: () => ({}),
};

/** What is said after an order is kept: with a pause, a retake and an incident in their words, else as a note. */
const asOrder = (order: LineOrder, comment: string, things: readonly BenchThing[]): LineReading => {
  if (order.kind === 'hold' || order.kind === 'incident' || order.kind === 'retake') {
    const text = [order.text, comment].filter(Boolean).join(' – ');
    const candidates = order.kind === 'retake' ? repeatable(order.text, things) : [];
    return { ...EMPTY, candidates, order: { ...order, text }, understood: candidates.map(({ thing }) => thing.name) };
  }
  const rest = order.kind === 'resume' ? [order.text, comment].filter(Boolean).join(' ') : comment;
  return { ...(rest === '' ? EMPTY : asNote(rest)), order };
};

/** What may be done again by these words? An action said before them is left out. */
const repeatable = (text: string, things: readonly BenchThing[]): readonly Candidate[] => {
  const named = things.filter(({ kind }) => kind !== 'tool');
  const { action, target, place } = sortWords(text, named);
  const hints = { action, count: undefined, place, off: new Set<string>(), recent: [] };
  return findThings(named, [...target], hints).slice(0, 3);
};

/** A line without an action is a note, whole. */
const asNote = (line: string): LineReading => {
  const note = line.trim();
  if (note === '') return EMPTY;
  const naming = { note: note.slice(0, LONGEST_NOTE) };
  return { ...EMPTY, naming, left: note, cut: Math.max(0, note.length - LONGEST_NOTE), namingFor: () => naming };
};

const understoodOf = (words: LineWords, target: string | undefined): readonly string[] =>
  [
    words.action?.replaceAll('-', ' '),
    words.count === undefined ? undefined : `${words.count} of them`,
    target,
    ...words.tools.map(({ name }) => name),
    words.place.length > 0 ? words.place.join(' ') : undefined,
    ...words.reach,
    words.took,
    words.outcome.outcome,
    words.outcome.because?.replaceAll('-', ' '),
    words.did === undefined ? undefined : `${words.did} came`,
    words.came,
  ].filter((text) => text !== undefined);
