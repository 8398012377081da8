import { lastCorrection } from './last-correction.ts';
import type { Entry, Session } from './schema/assessment.ts';

/**
 * Which entries of a session stand, in the order of their times? A corrected entry gives way to its correction, which stands
 * at the old one's time; a withdrawn one leaves nothing. Where two correct the same entry, the later one stands. Entries of
 * one time stand as the record lists them. Cost: that of the sort, once a session object, which must not change afterwards.
 */
export const standingEntries = (session: Session): readonly NamedEntry[] => {
  const known = standings.get(session);
  if (known) return known;
  const standing = findStanding(session);
  standings.set(session, standing);
  return standing;
};

type NamedEntry = readonly [string, Entry];

const standings = new WeakMap<Session, readonly NamedEntry[]>();

const findStanding = (session: Session): readonly NamedEntry[] => {
  const entries = Object.entries(session.entries);
  const corrections = correctionsOf(entries);
  const standing: NamedEntry[] = [];
  for (const [id, entry] of entries) {
    if (entry.corrects !== undefined && session.entries[entry.corrects]) continue;
    const [lastId, last] = corrections.has(id) ? lastCorrection([id, entry], corrections) : [id, entry];
    if (last.withdrawn !== true) standing.push([lastId, last === entry ? entry : atTimeOf(entry, last)]);
  }
  return standing.sort(([, a], [, b]) => a.at - b.at);
};

/** A correction at the time of what it corrects: the very same object for the same two, so that what follows from it can be kept. */
const atTimeOf = (first: Entry, last: Entry): Entry => {
  const known = moved.get(last);
  if (known?.at === first.at) return known;
  const entry = last.at === first.at ? last : { ...last, at: first.at };
  moved.set(last, entry);
  return entry;
};

const moved = new WeakMap<Entry, Entry>();

const correctionsOf = (entries: readonly NamedEntry[]): ReadonlyMap<string, NamedEntry> => {
  const corrections = new Map<string, NamedEntry>();
  for (const [id, entry] of entries) {
    if (entry.corrects === undefined) continue;
    const other = corrections.get(entry.corrects);
    if (!other || other[1].at <= entry.at) corrections.set(entry.corrects, [id, entry]);
  }
  return corrections;
};
