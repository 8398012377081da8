import { pointerOf } from '#record/patch/json-pointer';
import type { Patch } from '#record/patch/operation';
import type { Assessment, Entry, Session } from '#record/schema/assessment';
import { chainOf, correctionKey, type EntryChain, lastSaid, saidBy } from './entry-chain.ts';
import { add, entryKeys, inMap, json } from './patch-parts.ts';

/** Where at the bench an act takes place: which session of which document. */
export interface BenchPlace {
  readonly document: Assessment;
  readonly session: string;
}

/** The fields of an entry that say what was done; what is not said stays unknown. */
export type Naming = Omit<Entry, 'at' | 'corrects' | 'withdrawn' | 'named' | 'naming' | 'reviewed' | 'goal'>;

/** Begins a session. */
export const startSession = (document: Assessment, key: string, session: Session): Patch => [
  ...inMap(document, 'sessions'),
  add(['sessions', key], session),
];

/** Takes a specimen into the record, as it was received. */
export const takeIn = (
  document: Assessment,
  key: string,
  specimen: NonNullable<Assessment['specimens']>[string],
): Patch => [...inMap(document, 'specimens'), add(['specimens', key], specimen)];

/** Marks a time; what happened is named later. The goal is kept with it, since it may change before. */
export const markTime = (
  { session }: BenchPlace,
  mark: { readonly key: string; readonly at: number; readonly goal?: string | undefined },
): Patch => [
  add(entryKeys(session, mark.key), { at: mark.at, ...(mark.goal === undefined ? {} : { goal: mark.goal }) }),
];

/** Was this entry marked but not named yet, so that naming it changes nothing anybody said? */
export const isUnnamed = (entry: Entry): boolean =>
  entry.do === undefined && entry.corrects === undefined && entry.note === undefined;

/**
 * Says what a mark was. Its empty fields are filled in; an entry that says something already is never rewritten: then a new
 * entry corrects the last one that corrects it, and the old ones stay.
 */
export const nameEntry = (
  { document, session }: BenchPlace,
  entry: string,
  naming: Naming & Pick<Entry, 'named' | 'naming'>,
): Patch => {
  const record = document.sessions?.[session];
  const old = record?.entries[entry];
  if (!record || !old) return [];
  const chain = chainOf(record, entry);
  const { goal, began, ends } = old;
  const about = {
    ...(goal === undefined ? {} : { goal }),
    ...(began === undefined ? {} : { began }),
    ...(ends === undefined ? {} : { ends }),
  };
  if (!isUnnamed(old) || chain.corrections > 0)
    return correction({ document, session }, chain, { ...about, ...naming });
  const said = Object.entries(naming).filter(([, value]) => value !== undefined);
  return [
    { op: 'test', path: pointerOf(entryKeys(session, entry)), value: json(old) },
    ...said.map(([field, value]) => add([...entryKeys(session, entry), field], value)),
  ];
};

/** A new entry at the end of a chain. It stands at the time of the first, as every correction does. */
const correction = (
  { document, session }: BenchPlace,
  chain: EntryChain,
  fields: Omit<Entry, 'at' | 'corrects'>,
): Patch => {
  const record = document.sessions?.[session];
  const root = record?.entries[chain.root];
  if (!record || !root) return [];
  return [add(entryKeys(session, correctionKey(record, chain)), { ...fields, at: root.at, corrects: chain.tip })];
};

/** Enters an action that was named as it was marked. */
export const enterAction = (
  { session }: BenchPlace,
  entered: Naming & Pick<Entry, 'at' | 'naming'> & { readonly key: string; readonly goal?: string | undefined },
): Patch => {
  const { key, ...fields } = entered;
  return [add(entryKeys(session, key), { ...fields, named: 'at-once' })];
};

/**
 * Takes an entry back; it stays in the record. A correction gives way to what stood before it, which a new entry says again; an
 * entry made first is withdrawn with all its corrections. Where it ended a heat, a soak or a cure, that goes on again: only its
 * end is taken back.
 */
export const withdrawEntry = ({ document, session }: BenchPlace, entry: string): Patch => {
  const record = document.sessions?.[session];
  if (!record?.entries[entry]) return [];
  const chain = chainOf(record, entry);
  const at = chain.said.indexOf(entry);
  if (chain.said.length === 0 || (at < 0 && entry !== chain.root)) return [];
  const before = record.entries[chain.said[at - 1] ?? ''];
  if (before !== undefined && entry !== chain.root) return correction({ document, session }, chain, saidBy(before));
  return [
    ...correction({ document, session }, chain, { withdrawn: true }),
    ...goesOnAgain({ document, session }, record.entries[chain.root]?.ends),
  ];
};

/** Says the mark of a beginning again, once the entry that ended it is taken back. */
const goesOnAgain = ({ document, session }: BenchPlace, mark: string | undefined): Patch => {
  const record = document.sessions?.[session];
  if (!record || mark === undefined || !record.entries[mark]) return [];
  const chain = chainOf(record, mark);
  const stood = record.entries[chain.taken.at(-1) ?? ''];
  return chain.said.length > 0 || !stood ? [] : correction({ document, session }, chain, saidBy(stood));
};

/** Takes back what was entered last and still stands, a correction before what it corrects. */
export const undoLast = (place: BenchPlace): Patch => {
  const record = place.document.sessions?.[place.session];
  const last = record && lastSaid(record);
  return last === undefined ? [] : withdrawEntry(place, last);
};

/** Confirms in the review that an entry says what happened. */
export const reviewEntry = ({ session }: BenchPlace, entry: string): Patch => [
  add([...entryKeys(session, entry), 'reviewed'], true),
];

/** Begins a pause that is not work. It ends where it begins until it is over, so that a lost page loses no work time. */
export const startHold = (
  { document, session }: BenchPlace,
  hold: { readonly key: string; readonly from: number; readonly reason: string },
): Patch => [
  ...(document.sessions?.[session]?.holds === undefined ? [add(['sessions', session, 'holds'], {})] : []),
  add(['sessions', session, 'holds', hold.key], { from: hold.from, to: hold.from, reason: hold.reason }),
];

/** Enters a pause that is over already. */
export const enterHold = (
  { document, session }: BenchPlace,
  hold: { readonly key: string; readonly from: number; readonly to: number; readonly reason: string },
): Patch => [
  ...(document.sessions?.[session]?.holds === undefined ? [add(['sessions', session, 'holds'], {})] : []),
  add(['sessions', session, 'holds', hold.key], { from: hold.from, to: hold.to, reason: hold.reason }),
];

/** Ends a pause. */
export const endHold = ({ session }: BenchPlace, key: string, to: number): Patch => [
  { op: 'replace', path: pointerOf(['sessions', session, 'holds', key, 'to']), value: to },
];

/** Which pause is going on? One that ends where it begins. */
export const openHold = (
  session: Session,
): readonly [string, { readonly from: number; readonly reason: string }] | undefined =>
  Object.entries(session.holds ?? {}).find(([, { from, to }]) => from === to);

/** Enters several actions that share one interval, since nobody marked when each ended. */
export const catchUp = (
  { document, session }: BenchPlace,
  caught: {
    readonly interval: string;
    readonly from: number;
    readonly to: number;
    readonly namings: readonly (Naming & { readonly key: string })[];
  },
): Patch => [
  ...(document.sessions?.[session]?.intervals === undefined ? [add(['sessions', session, 'intervals'], {})] : []),
  add(['sessions', session, 'intervals', caught.interval], { from: caught.from, to: caught.to }),
  ...caught.namings.map(({ key, ...naming }, index, { length }) =>
    add(entryKeys(session, key), {
      ...naming,
      // Spread over the interval, so that they stand in their order and before what ended it.
      at: Math.round((caught.from + ((caught.to - caught.from) * (index + 1)) / (length + 1)) * 1000) / 1000,
      interval: caught.interval,
      named: 'later',
      naming: 'by-hand',
    }),
  ),
];

/** Records a damage as a record of its own, seen now or found later. */
export const recordDamage = (
  document: Assessment,
  key: string,
  damage: NonNullable<Assessment['damage']>[string],
): Patch => [...inMap(document, 'damage'), add(['damage', key], damage)];

/** Adds a line to the note of a damage; what stood there stays. */
export const addDamageNote = (document: Assessment, key: string, note: string): Patch => {
  const record = document.damage?.[key];
  if (!record || note.trim() === '') return [];
  const whole = [record.note, note.trim()].filter(Boolean).join('\n').slice(0, 10_000);
  return [add(['damage', key, 'note'], whole)];
};
