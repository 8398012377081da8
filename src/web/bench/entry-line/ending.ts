import type { Entry } from '#record/schema/assessment';
import { wordsOf } from './bench-things.ts';
import { ENDED_WORDS, FILL_WORDS, REASON_PHRASES } from './lexicon.ts';

/** How a line says that its action ended. */
export interface LineEnding {
  /** Said with a word of its own; a reason alone says no more than that something went wrong. */
  readonly ended: 'partial' | 'failed' | undefined;
  readonly because: Entry['because'];
  /** The reason in the words it was said in, where they say more than the record has a field for. */
  readonly note: string | undefined;
}

/**
 * Where does a line stop saying what was done and begin to say how it ended? After `because`, or after its last comma where a
 * reason or an ending follows it. A reason that is none of the record's own is "other", its words kept; without a word that it
 * failed or came partly, `because …` is a remark and no ending.
 */
export const splitEnding = (told: string): { readonly body: string; readonly ending: LineEnding | undefined } => {
  const because = /^(.*?)(?:,\s*)?\bbecause\b(?:\s+of)?\s*(.*)$/iu.exec(told);
  if (because) {
    const [, before = '', clause = ''] = because;
    const { ended, because: reason } = endingOf(clause);
    const isEnding = reason !== undefined || ended !== undefined || wordsOf(before).some((word) => word in ENDED_WORDS);
    const isWhole = clause.trim() !== '' && before.trim() !== '';
    if (!isWhole) return { body: told, ending: undefined };
    if (!isEnding) return { body: before, ending: { ended: undefined, because: undefined, note: `because ${clause}` } };
    return { body: before, ending: { ended, because: reason ?? 'other', note: noteOf(clause, reason) } };
  }
  const comma = told.lastIndexOf(',');
  const clause = comma < 0 || /\d,\d/u.test(told.slice(comma - 1, comma + 2)) ? '' : told.slice(comma + 1);
  const { ended, because: reason } = endingOf(clause);
  if (ended === undefined && reason === undefined) return { body: told, ending: undefined };
  return { body: told.slice(0, comma), ending: { ended, because: reason, note: noteOf(clause, reason) } };
};

/** Which ending and which reason do some words name? The first of each. */
const endingOf = (clause: string): Pick<LineEnding, 'ended' | 'because'> => {
  const words = wordsOf(clause);
  const endedBy = words.find((word) => Object.hasOwn(ENDED_WORDS, word));
  const spaced = ` ${words.join(' ')} `;
  const reason = REASON_PHRASES.find(([phrase]) => spaced.includes(` ${phrase} `));
  return { ended: endedBy === undefined ? undefined : ENDED_WORDS[endedBy], because: reason?.[1] };
};

/** Words that only point at what was named before. */
const POINTING: ReadonlySet<string> = new Set(['it', 'was', 'they', 'were']);

/** The words of an ending, where they are more than its own name. */
const noteOf = (clause: string, reason: Entry['because']): string | undefined => {
  const own = new Set(REASON_PHRASES.filter(([, one]) => one === reason).flatMap(([phrase]) => phrase.split(' ')));
  const isMore = wordsOf(clause).some(
    (word) => !own.has(word) && !Object.hasOwn(ENDED_WORDS, word) && !FILL_WORDS.has(word) && !POINTING.has(word),
  );
  return isMore ? clause.trim() : undefined;
};
