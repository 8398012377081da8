import { itemsOf, type PlainMap } from './plain.ts';

/** Which entries do the sessions hold, and in which session is an entry to be found that is named alone? */
export interface LogIndex {
  has(session: string, entry: string): boolean;
  /** The sessions that have an entry of this id. */
  sessionsWith(entry: string): readonly string[];
  entry(session: string, entry: string): PlainMap | undefined;
  /** The entries of a session with their ids, in the order of the file. */
  entries(session: string): Iterable<readonly [id: string, entry: PlainMap]>;
  names(session: string | undefined): readonly string[];
}

/** An index over all entries of all sessions. Cost: linear. */
export const logIndex = (data: PlainMap): LogIndex => {
  const bySession = new Map<string, ReadonlyMap<string, PlainMap>>();
  const sessionsOf = new Map<string, string[]>();
  for (const [session, { entries }] of itemsOf(data.sessions)) {
    const own = new Map(itemsOf(entries));
    bySession.set(session, own);
    for (const id of own.keys()) {
      const known = sessionsOf.get(id);
      if (known) known.push(session);
      else sessionsOf.set(id, [session]);
    }
  }
  return {
    has: (session, entry) => bySession.get(session)?.has(entry) === true,
    sessionsWith: (entry) => sessionsOf.get(entry) ?? [],
    entries: (session) => bySession.get(session) ?? [],
    entry: (session, entry) => bySession.get(session)?.get(entry),
    names: (session) => [...(session === undefined ? sessionsOf.keys() : (bySession.get(session)?.keys() ?? []))],
  };
};
