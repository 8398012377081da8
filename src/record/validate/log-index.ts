import { itemOf, itemsOf, type PlainMap } from './plain.ts';

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

/** An index over all entries of all sessions. Cost: linear; what only a lone entry id needs is made when it is asked for. */
export const logIndex = (data: PlainMap): LogIndex => {
  const bySession = new Map(
    itemsOf(data.sessions).map(([id, { entries }]) => [id, { entries, items: itemsOf(entries) }]),
  );
  let sessionsOf: ReadonlyMap<string, readonly string[]> | undefined;
  const allSessions = (): ReadonlyMap<string, readonly string[]> => {
    sessionsOf ??= sessionsByEntry(bySession);
    return sessionsOf;
  };
  const find = (session: string, entry: string): PlainMap | undefined => itemOf(bySession.get(session)?.entries, entry);
  return {
    has: (session, entry) => find(session, entry) !== undefined,
    sessionsWith: (entry) => allSessions().get(entry) ?? [],
    entries: (session) => bySession.get(session)?.items ?? [],
    entry: find,
    names: (session) =>
      session === undefined ? [...allSessions().keys()] : (bySession.get(session)?.items ?? []).map(([id]) => id),
  };
};

const sessionsByEntry = (
  sessions: ReadonlyMap<string, { readonly items: readonly (readonly [string, PlainMap])[] }>,
): ReadonlyMap<string, readonly string[]> => {
  const sessionsOf = new Map<string, string[]>();
  for (const [session, { items }] of sessions)
    for (const [id] of items) {
      const known = sessionsOf.get(id);
      if (known) known.push(session);
      else sessionsOf.set(id, [session]);
    }
  return sessionsOf;
};
