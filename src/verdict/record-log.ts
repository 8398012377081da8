import type { Assessment, Entry, Session, Swap } from '#record/schema/assessment';

/** One entry of a session as it was written, whether it stands or not. Texts by the names of the record. */
export interface LoggedEntry {
  readonly id: string;
  /** End of the action [s from the session's start]. */
  readonly at: number;
  readonly words: string;
  /** Names of the tools in use; empty is bare hands, undefined not known. */
  readonly tools?: readonly string[];
  readonly note?: string;
  readonly evidence: readonly string[];
}

/** One session of the log, its entries in the order of their times. */
export interface LoggedSession {
  readonly id: string;
  readonly operator: string;
  readonly entries: readonly LoggedEntry[];
  /** Evidence of the whole session. */
  readonly evidence: readonly string[];
}

/** Two statements of the record about one thing that was done: which gave way to which, in what they differ, and who said so. */
export interface Correction {
  /** Address of what gave way, such as `sessions/m1/entries/e4` or `swaps/r22`. */
  readonly of: string;
  readonly by: string;
  readonly who: string;
  /** Field by field, before and after; empty where the first was withdrawn or only remarks differ. */
  readonly differences: readonly { readonly field: string; readonly before: string; readonly after: string }[];
  readonly isWithdrawn: boolean;
  /** What the correction says of itself. */
  readonly note?: string;
}

/** Where a piece of evidence is kept, and to which moment of the bench it belongs. */
export interface EvidencePlace {
  readonly file?: string;
  readonly taken?: string;
  readonly session?: string;
  /** Seconds from the session's start. */
  readonly at?: number;
  readonly source?: string;
}

/** The log behind a verdict, as it was written. */
export interface RecordLog {
  readonly sessions: readonly LoggedSession[];
  readonly corrections: readonly Correction[];
  readonly evidence: Readonly<Record<string, EvidencePlace>>;
}

/**
 * What did people write down at the bench, and where does a later statement say otherwise than an earlier one? All entries, those
 * that gave way too; corrections of entries and of swap runs, in the order of the record. Pure.
 */
export const recordLog = (assessment: Assessment): RecordLog => {
  const nameOf = namesOf(assessment);
  return {
    sessions: Object.entries(assessment.sessions ?? {}).map(([id, session]) => loggedSession(id, session, nameOf)),
    corrections: [
      ...Object.entries(assessment.sessions ?? {}).flatMap(([id, session]) => entryCorrections(id, session, nameOf)),
      ...swapCorrections(assessment, nameOf),
    ],
    evidence: Object.fromEntries(
      Object.entries(assessment.evidence ?? {}).map(([id, { file, taken, session, at, source }]) => [
        id,
        defined({ file, taken, session, at, source }),
      ]),
    ),
  };
};

type NameOf = (id: string) => string;

const namesOf = ({ parts, fasteners, tools, specimens }: Assessment): NameOf => {
  const named = [parts, fasteners, tools, specimens].map((map) => new Map(Object.entries(map ?? {})));
  return (id) => named.flatMap((map) => map.get(id)?.name ?? [])[0] ?? id.replaceAll('-', ' ');
};

/** Without the fields that say nothing. */
const defined = <T extends object>(record: T): { [K in keyof T]?: Exclude<T[K], undefined> } =>
  Object.fromEntries(Object.entries(record).filter(([, value]) => value !== undefined)) as {
    [K in keyof T]?: Exclude<T[K], undefined>;
  };

const loggedSession = (id: string, session: Session, nameOf: NameOf): LoggedSession => ({
  id,
  operator: session.operator ?? 'not named',
  evidence: session.evidence ?? [],
  entries: Object.entries(session.entries)
    .map(([entry, written]) => loggedEntry(entry, written, nameOf))
    .sort((a, b) => a.at - b.at),
});

const loggedEntry = (id: string, entry: Entry, nameOf: NameOf): LoggedEntry => ({
  id,
  at: entry.at,
  words: entryWords(entry, nameOf),
  ...(entry.tools === undefined ? {} : { tools: entry.tools.map(nameOf) }),
  ...(entry.note === undefined ? {} : { note: entry.note }),
  evidence: entry.evidence ?? [],
});

const entryWords = (entry: Entry, nameOf: NameOf): string => {
  const { do: action, target, way, place, outcome, did, because, withdrawn } = entry;
  if (withdrawn === true) return 'taken back';
  if (action === undefined) return 'marked, not named';
  const what = [action.replaceAll('-', ' '), target === undefined ? place : nameOf(target)].filter(Boolean).join(' ');
  const how = way === undefined ? '' : ` (${way.replaceAll('-', ' ')})`;
  const came = outcome === undefined || outcome === 'done' ? [] : [did === undefined ? outcome : `${outcome}, ${did}`];
  return [`${what}${how}`, ...came, ...(because === undefined ? [] : [because.replaceAll('-', ' ')])].join('; ');
};

/** What an entry says of the work; remarks, times and how it was named are no disagreement. */
const ENTRY_FIELDS = [
  'do',
  'target',
  'way',
  'tools',
  'took',
  'outcome',
  'did',
  'because',
  'released',
  'free',
  'aside',
  'refitted',
  'remote',
  'place',
  'reach',
  'goal',
] as const satisfies readonly (keyof Entry)[];

const entryCorrections = (id: string, session: Session, nameOf: NameOf): readonly Correction[] =>
  Object.entries(session.entries).flatMap(([key, entry]) => {
    const first = entry.corrects === undefined ? undefined : session.entries[entry.corrects];
    if (first === undefined) return [];
    const place = `sessions/${id}/entries`;
    const who = session.operator ?? 'not named';
    const places = { of: `${place}/${entry.corrects}`, by: `${place}/${key}`, who };
    return [correction(places, { first, later: entry, fields: ENTRY_FIELDS, nameOf })];
  });

/** What a fit says of the run; who, when and with which evidence are no disagreement. */
const SWAP_FIELDS = [
  'specimen',
  'part',
  'fitted',
  'donor',
  'arm',
  'run',
  'firmware',
  'effect',
  'effectOf',
  'masked',
  'notice',
  'measured',
  'starts',
  'checks',
  'calibrated',
  'identityMoved',
  'pairing',
  'interrupted',
] as const satisfies readonly (keyof Swap)[];

const swapCorrections = ({ swaps = {}, sessions = {} }: Assessment, nameOf: NameOf): readonly Correction[] =>
  Object.entries(swaps).flatMap(([id, swap]) => {
    const first = swap.corrects === undefined ? undefined : swaps[swap.corrects];
    if (first === undefined) return [];
    const who = swap.operator ?? sessions[swap.session ?? '']?.operator ?? 'not named';
    const places = { of: `swaps/${swap.corrects}`, by: `swaps/${id}`, who };
    return [correction(places, { first, later: swap, fields: SWAP_FIELDS, nameOf })];
  });

interface Statement {
  readonly withdrawn?: boolean | undefined;
  readonly note?: string | undefined;
}

const correction = <T extends Statement>(
  places: Pick<Correction, 'of' | 'by' | 'who'>,
  {
    first,
    later,
    fields,
    nameOf,
  }: { readonly first: T; readonly later: T; readonly fields: readonly (keyof T & string)[]; readonly nameOf: NameOf },
): Correction => {
  const isWithdrawn = later.withdrawn === true;
  const differences = isWithdrawn
    ? []
    : fields.flatMap((field) => {
        const [before, after] = [valueWords(first[field], nameOf), valueWords(later[field], nameOf)];
        return before === after ? [] : [{ field, before, after }];
      });
  return { ...places, differences, isWithdrawn, ...(later.note === undefined ? {} : { note: later.note }) };
};

const valueWords = (value: unknown, nameOf: NameOf): string => {
  if (value === undefined) return 'not said';
  if (Array.isArray(value)) return value.length === 0 ? 'none' : value.map((one) => valueWords(one, nameOf)).join(', ');
  if (typeof value === 'string') return nameOf(value) === value.replaceAll('-', ' ') ? value : nameOf(value);
  if (typeof value !== 'object' || value === null) return String(value);
  return Object.entries(value)
    .map(([key, one]) => `${key} ${valueWords(one, nameOf)}`)
    .join(', ');
};
