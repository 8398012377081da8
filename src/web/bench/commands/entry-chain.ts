import type { Entry, Session } from '#record/schema/assessment';

/** An entry with all that corrects it, one after the other. */
export interface EntryChain {
  /** The entry that was made first. */
  readonly root: string;
  /** The last of the chain: what a further correction must point at. */
  readonly tip: string;
  /** How many corrections there are. */
  readonly corrections: number;
  /** What was said and not taken back, first to last; the last stands. Empty where nothing of it stands. */
  readonly said: readonly string[];
  /** What stood until a withdrawal took it back; empty where something stands. */
  readonly taken: readonly string[];
}

/**
 * Which corrections does an entry, or the entry it corrects, have? A correction that says again what stood before the last one
 * takes that one back, and a withdrawal takes back everything, until what stood is said again. Of two that correct one entry the later in the record is followed.
 */
export const chainOf = ({ entries }: Session, entry: string): EntryChain => {
  const root = rootOf(entries, entry);
  const next = new Map<string, string>();
  for (const [key, { corrects }] of Object.entries(entries)) if (corrects !== undefined) next.set(corrects, key);
  const chain = [root];
  for (let key = next.get(root); key !== undefined && !chain.includes(key); key = next.get(key)) chain.push(key);
  let state: Saying = { said: [], taken: [] };
  for (const key of chain) state = afterSaying(entries, state, key);
  return { root, tip: chain.at(-1) ?? root, corrections: chain.length - 1, ...state };
};

type Entries = Session['entries'];

const rootOf = (entries: Entries, entry: string): string => {
  const seen = new Set<string>();
  let root = entry;
  for (
    let old = entries[root]?.corrects;
    old !== undefined && entries[old] && !seen.has(old);
    old = entries[old]?.corrects
  ) {
    seen.add(old);
    root = old;
  }
  return root;
};

type Saying = Pick<EntryChain, 'said' | 'taken'>;

const afterSaying = (entries: Entries, { said, taken }: Saying, key: string): Saying => {
  const entry = entries[key];
  if (!entry) return { said: [], taken: [] };
  if (entry.withdrawn === true) return { said: [], taken: said.length > 0 ? said : taken };
  const isAgain = (other: string | undefined): boolean => {
    const before = entries[other ?? ''];
    return before !== undefined && contentOf(before) === contentOf(entry);
  };
  if (said.length === 0 && isAgain(taken.at(-1))) return { said: taken, taken: [] };
  return { said: isAgain(said.at(-2)) ? said.slice(0, -1) : [...said, key], taken: [] };
};

/** What an entry says, without its time and its place in a chain. */
const contentOf = (entry: Entry): string =>
  JSON.stringify(Object.entries(saidBy(entry)).sort(([a], [b]) => (a < b ? -1 : 1)));

/** The fields of an entry that a correction back repeats. */
export const saidBy = ({ at: _at, corrects: _corrects, withdrawn: _withdrawn, ...said }: Entry): Omit<Entry, 'at'> =>
  said;

/**
 * Under which key does the next correction of a chain go? It follows from the chain alone, so that two who correct or take back
 * the same entry at once meet at one place and are asked, instead of breaking the record.
 */
export const correctionKey = ({ entries }: Session, { root, corrections }: EntryChain): string => {
  const head = `${root.slice(0, 60)}-r${corrections + 1}`;
  let key = head;
  for (let more = 1; entries[key] !== undefined; more++) key = `${head}-${more}`;
  return key;
};

/**
 * Which entry was said last and stands? By the order in which the record holds them, which is that in which they were made, not
 * by their times: a mark caught up or corrected later was made later.
 */
export const lastSaid = (session: Session): string | undefined => {
  const order = new Map(Object.keys(session.entries).map((key, index) => [key, index]));
  const placeOf = (key: string): number => order.get(key) ?? -1;
  let last: string | undefined;
  for (const key of standingTops(session)) if (last === undefined || placeOf(key) > placeOf(last)) last = key;
  return last;
};

/** What stands of every chain. An entry nothing corrects stands by itself, which spares the walk. */
const standingTops = (session: Session): readonly string[] => {
  const entries = Object.entries(session.entries);
  const corrected = new Set(entries.flatMap(([, { corrects }]) => corrects ?? []));
  return entries.flatMap(([key, { corrects }]) => {
    if (corrects !== undefined && session.entries[corrects]) return [];
    return corrected.has(key) ? (chainOf(session, key).said.at(-1) ?? []) : [key];
  });
};
