import type { Entry } from '#record/schema/assessment';
import type { BenchThing } from './bench-things.ts';
import type { LineWords } from './sort-words.ts';

/** What a line says of an entry. */
export type LineNaming = Partial<
  Pick<
    Entry,
    'do' | 'target' | 'tools' | 'outcome' | 'did' | 'because' | 'place' | 'reach' | 'took' | 'note' | 'free' | 'aside'
  >
>;

/**
 * What do the words of a line say where they mean this thing? A count short of the set is a part of it; one beyond the set is
 * kept as a question in the note, since one of the two numbers is wrong and nobody knows which.
 */
export const countedNaming = (words: LineWords, thing: BenchThing | undefined): LineNaming => {
  const set = thing?.fastener?.count;
  const { count, outcome, action, did, tools, place, reach, took, came } = words;
  const isShort =
    set !== undefined && count !== undefined && did === undefined && count < set && LETTING_GO.has(action ?? '');
  const question = questionOf(words, set);
  const note = [words.note, question].filter(Boolean).join(' ');
  const target = thing?.key;
  const all = {
    do: action,
    target,
    tools: tools.length > 0 ? tools.map(({ key }) => key) : undefined,
    ...outcome,
    ...(isShort && outcome.outcome !== 'failed' ? { outcome: 'partial' as const, did: count } : {}),
    // All of the set and more is not part of it: the two numbers stand in the note, and which is wrong is asked.
    ...(did === undefined || (set !== undefined && did >= set) ? {} : { did }),
    place: place.length > 0 ? place.join(' ') : undefined,
    reach: reach.length > 0 ? reach.join(', ') : undefined,
    took,
    note: note === '' ? undefined : note.slice(0, 10_000),
    free: came === 'free' && target !== undefined ? [target] : undefined,
    aside: came === 'aside' && target !== undefined ? [target] : undefined,
  };
  return Object.fromEntries(Object.entries(all).filter(([, value]) => value !== undefined));
};

const LETTING_GO: ReadonlySet<string> = new Set([
  'unscrew',
  'unplug',
  'desolder',
  'release-clips',
  'peel',
  'pull',
  'pry',
  'cut',
]);

const questionOf = ({ count, did, outcome }: LineWords, set: number | undefined): string | undefined => {
  const most = Math.max(count ?? 0, did ?? 0);
  if (outcome.outcome === 'failed' && count !== undefined && count !== set) return `(${count} of them)`;
  if (set === undefined || most === 0) return undefined;
  if (most > set) return `(said ${most}, the set has ${set}: which?)`;
  return did !== undefined && count !== undefined && count !== set
    ? `(said of ${count}, the set has ${set}: which?)`
    : undefined;
};
