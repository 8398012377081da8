import type { Entry } from '#record/schema/assessment';
import { type BenchThing, wordsOf } from './bench-things.ts';
import { type LineEnding, splitEnding } from './ending.ts';
import {
  ACTION_WORDS,
  AGENT_WORDS,
  ENDED_WORDS,
  FILL_WORDS,
  MANNER_WORDS,
  PLACE_WORDS,
  REASON_PHRASES,
  SECOND_WORDS,
} from './lexicon.ts';

/** An order to the bench rather than an action. */
export interface LineOrder {
  readonly kind: 'goal' | 'hold' | 'resume' | 'retake' | 'incident';
  readonly text: string;
}

/** The words of a line, each in the place it was understood for. */
export interface LineWords {
  readonly order?: LineOrder;
  readonly action: Entry['do'];
  readonly count: number | undefined;
  readonly did: number | undefined;
  readonly tools: readonly BenchThing[];
  readonly outcome: Pick<Entry, 'outcome' | 'because'>;
  readonly place: readonly string[];
  /** Temperatures and amounts. */
  readonly reach: readonly string[];
  readonly took: string | undefined;
  readonly came: 'free' | 'aside' | undefined;
  /** What is left for the target. */
  readonly target: readonly string[];
  readonly note: string;
}

const ORDERS: Readonly<Record<string, LineOrder['kind']>> = {
  goal: 'goal',
  for: 'goal',
  hold: 'hold',
  pause: 'hold',
  resume: 'resume',
  retake: 'retake',
  incident: 'incident',
};
const LONGEST = 10_000;

interface Sorting {
  action: Entry['do'];
  count: number | undefined;
  did: number | undefined;
  /** As said with a word of its own, or by a count of what came. */
  ended: 'failed' | 'partial' | undefined;
  because: Entry['because'];
  readonly places: string[];
  readonly reach: string[];
  took: string | undefined;
  came: 'free' | 'aside' | undefined;
  readonly rest: string[];
  readonly odd: string[];
}

/** Which word of a line says what? Quantities, counts, outcomes and places by their form; the rest names tools and the target. */
export const sortWords = (line: string, things: readonly BenchThing[]): LineWords => {
  const [told = '', ...comment] = line.slice(0, LONGEST).split(/\s*(?:--|\/\/|;)\s*/u);
  const said = told.trim().split(/\s+/u).filter(Boolean);
  const first = said[0]?.toLowerCase() ?? '';
  const order = Object.hasOwn(ORDERS, first) ? ORDERS[first] : undefined;
  const { body, ending } = order === undefined ? splitEnding(told) : { body: told, ending: undefined };
  const sorting = sortTokens(tokensOf(body), ending);
  const { tools, target } = splitTools(sorting, things);
  const { action, count, did, reach, took, came } = sorting;
  return {
    ...(order === undefined ? {} : { order: { kind: order, text: said.slice(1).join(' ') } }),
    action,
    count,
    did,
    outcome: outcomeOf(sorting),
    reach,
    took,
    came,
    tools,
    ...target,
    note: [...sorting.odd, ending?.note, ...comment, line.slice(LONGEST)].filter(Boolean).join(' '),
  };
};

const sortTokens = (tokens: readonly string[], ending: LineEnding | undefined): Sorting => {
  const sorting: Sorting = {
    action: undefined,
    count: undefined,
    did: undefined,
    ended: ending?.ended,
    because: ending?.because,
    places: [],
    reach: [],
    took: undefined,
    came: undefined,
    rest: [],
    odd: [],
  };
  for (const [index, token] of tokens.entries())
    sortToken(sorting, token.toLowerCase(), tokens[index - 1]?.toLowerCase());
  return sorting;
};

/** A reason alone says that it failed; beside a count of what came it says why the rest did not. */
const outcomeOf = ({ ended, because }: Sorting): Pick<Entry, 'outcome' | 'because'> => {
  const outcome = ended ?? (because === undefined ? undefined : 'failed');
  return { ...(outcome === undefined ? {} : { outcome }), ...(because === undefined ? {} : { because }) };
};

/** The words of a line without the marks that close them. */
const tokensOf = (body: string): readonly string[] =>
  joinUnits(
    body
      .split(/\s+/u)
      .map((token) => token.replace(/[,.:]+$/u, ''))
      .filter(Boolean),
  );

type Reader = (sorting: Sorting, match: RegExpExecArray) => void;

const FORMS: readonly (readonly [RegExp, Reader])[] = [
  [
    /^(\d{1,4})\/(\d{1,4})$/,
    (to, [token, did, all]) => {
      const [some, whole] = [Number(did), Number(all)];
      const isOther = to.did !== undefined || (to.count ?? whole) !== whole || to.ended === 'failed' || some > whole;
      if (isOther) to.odd.push(token);
      else if (some === whole) to.count = whole;
      else if (some > 0) Object.assign(to, { did: some, count: whole, ended: 'partial' });
      else {
        Object.assign(to, { count: whole, ended: 'failed' });
        to.odd.push(`${some} of ${whole}`);
      }
    },
  ],
  [
    /^(\d{1,4})x?$/,
    (to, [token, count]) => {
      if (to.count !== undefined) to.odd.push(token);
      else to.count = Number(count);
    },
  ],
  [/^(-?\d{1,3}(?:[.,]\d+)?)°?c$/, (to, [, degrees]) => to.reach.push(`${decimal(degrees)} °C`)],
  [
    /^(\d+(?:[.,]\d+)?)(ml|g|mg)$/,
    (to, [, amount, unit]) => to.reach.push(`${decimal(amount)} ${unit === 'ml' ? 'mL' : unit}`),
  ],
  [
    /^(\d+(?:[.,]\d+)?)(min|m|s|sec|h)$/,
    (to, [token, time, unit]) => {
      if (to.took !== undefined) to.odd.push(token);
      else to.took = `${decimal(time)} ${TIME[unit ?? '']}`;
    },
  ],
];
const TIME: Readonly<Record<string, string>> = { min: 'min', m: 'min', s: 's', sec: 's', h: 'h' };
const decimal = (text: string | undefined): string => (text ?? '').replace(',', '.');

/** `80 c` and `3 min` are one quantity each, and `7 of 8` is one count. */
const joinUnits = (tokens: readonly string[]): readonly string[] => {
  const joined: string[] = [];
  for (const token of tokens) {
    const before = joined.at(-1) ?? '';
    const count = /^\d{1,4}$/;
    if (count.test(token) && before.toLowerCase() === 'of' && count.test(joined.at(-2) ?? '')) {
      joined.pop();
      joined.push(`${joined.pop()}/${token}`);
      continue;
    }
    if (/^(?:°?c|ml|g|mg|min|m|s|sec|h)$/i.test(token) && /^-?\d+(?:[.,]\d+)?$/.test(before))
      joined.push(`${joined.pop()}${token}`);
    else joined.push(token);
  }
  return joined;
};

const sortToken = (sorting: Sorting, token: string, before: string | undefined): void => {
  for (const [form, read] of FORMS) {
    const match = form.exec(token);
    if (!match) continue;
    read(sorting, match);
    return;
  }
  const action = Object.hasOwn(ACTION_WORDS, token) ? ACTION_WORDS[token] : undefined;
  const isSecond = sorting.action !== undefined && SECOND_WORDS[sorting.action]?.includes(token) === true;
  if (isSecond && ACTION_WORDS[before ?? ''] === sorting.action) return;
  const isEarly = sorting.rest.length + sorting.odd.length < 2;
  if (action !== undefined && sorting.action === undefined && isEarly) sorting.action = action;
  else if (isEnding(token)) sortOutcome(sorting, token);
  else if ((token === 'free' || token === 'aside') && (sorting.came ?? token) === token) sorting.came = token;
  else if (PLACE_WORDS.has(token)) sorting.places.push(token);
  else if (MANNER_WORDS.has(token) || (AGENT_WORDS.has(token) && sorting.action === 'dissolve'))
    sorting.odd.push(token);
  else if (!FILL_WORDS.has(token) && !(token === 'came' && sorting.did !== undefined)) sortName(sorting, token);
};

const REASONS = new Map(REASON_PHRASES);

const isEnding = (token: string): boolean => Object.hasOwn(ENDED_WORDS, token) || REASONS.has(token);

/** A second ending or reason that says otherwise than the first is kept for the note. */
const sortOutcome = (sorting: Sorting, token: string): void => {
  const ended = Object.hasOwn(ENDED_WORDS, token) ? ENDED_WORDS[token] : undefined;
  const because = REASONS.get(token);
  const isOther =
    (ended !== undefined && (sorting.ended ?? ended) !== ended) ||
    (because !== undefined && (sorting.because ?? because) !== because);
  if (isOther) sorting.odd.push(token);
  else Object.assign(sorting, ended === undefined ? { because } : { ended });
};

/** A word without a letter or digit (a lone emoji, a bracket) names nothing and is kept for the note. */
const sortName = (sorting: Sorting, token: string): void => {
  const words = wordsOf(token);
  if (words.length === 0 || token.length > 60) sorting.odd.push(token);
  else sorting.rest.push(...words);
};

/**
 * Which of the words name tools? A run of words after `with`, or one that names a tool whole and nothing else. Places belong to
 * the target where that is its name ("back cover").
 */
const splitTools = (
  { rest, places, odd }: Sorting,
  things: readonly BenchThing[],
): {
  readonly tools: readonly BenchThing[];
  readonly target: { readonly target: readonly string[]; readonly place: readonly string[] };
} => {
  const tools: BenchThing[] = [];
  const target: string[] = [];
  const at = rest.indexOf('with');
  const named = at < 0 ? rest : rest.slice(0, at);
  for (const word of at < 0 ? [] : rest.slice(at + 1)) {
    const tool = toolOf(word, things);
    if (!tool) odd.push(word);
    else if (!tools.includes(tool)) tools.push(tool);
  }
  for (const word of named) {
    const tool = isNamed(word, things) && !isDrive(word) ? undefined : toolOf(word, things);
    if (tool && !tools.includes(tool)) tools.push(tool);
    if (!tool || isDrive(word)) target.push(word);
  }
  const inName = places.filter((place) => isNamedWith(place, target, things));
  return {
    tools,
    target: { target: [...inName, ...target], place: places.filter((place) => !inName.includes(place)) },
  };
};

/** `ph000` names a driver and the screws it fits. */
export const isDrive = (word: string): boolean => /^[a-z]+\d+$/u.test(word);

const isNamed = (word: string, things: readonly BenchThing[]): boolean =>
  things.some(({ kind, words }) => kind !== 'tool' && words.includes(word));

const toolOf = (word: string, things: readonly BenchThing[]): BenchThing | undefined =>
  things.find(({ kind, key, words }) => kind === 'tool' && (key === word || words.includes(word)));

/** Is there a thing with this place in its name and all the other words too? */
const isNamedWith = (place: string, words: readonly string[], things: readonly BenchThing[]): boolean =>
  things.some(
    (thing) =>
      thing.kind !== 'tool' &&
      thing.words.includes(place) &&
      words.every((word) => thing.words.some((own) => own.startsWith(word))),
  );
