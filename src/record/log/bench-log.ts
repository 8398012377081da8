import { type Device, describedJoints, jointOf, REFITTING, RELEASING } from '../device/device.ts';
import type { Assessment, Entry, Session } from '../schema/assessment.ts';

/** What did one logged action change on its specimen? Fastener ids released; part ids freed, laid aside; things put back. */
export interface LogEffects {
  readonly released: readonly string[];
  readonly freed: readonly string[];
  readonly aside: readonly string[];
  readonly refitted: readonly string[];
}

/** One entry as it stands after corrections, in its place in the session. */
export interface LoggedAction {
  readonly session: string;
  readonly entry: string;
  readonly specimen: string;
  readonly kind: Session['kind'];
  readonly record: Entry;
  readonly goals: readonly string[] | undefined;
  readonly effects: LogEffects;
}

const NOTHING: LogEffects = { released: [], freed: [], aside: [], refitted: [] };

/** Which entries of a session stand, in the order of their times? Corrected ones give way to the correction at the old one's time. */
export const standingEntries = (session: Session): readonly (readonly [string, Entry])[] => {
  const corrections = new Map<string, readonly [string, Entry]>();
  for (const [id, entry] of Object.entries(session.entries))
    if (entry.corrects !== undefined) corrections.set(entry.corrects, [id, entry]);
  const standing: (readonly [string, Entry])[] = [];
  for (const [id, entry] of Object.entries(session.entries)) {
    if (entry.corrects !== undefined && session.entries[entry.corrects]) continue;
    const last = lastCorrection(id, entry, corrections);
    if (last.withdrawn) continue;
    standing.push([last.id, { ...last.entry, at: entry.at }]);
  }
  return standing.sort(([, a], [, b]) => a.at - b.at);
};

const lastCorrection = (
  id: string,
  entry: Entry,
  corrections: ReadonlyMap<string, readonly [string, Entry]>,
): { id: string; entry: Entry; withdrawn: boolean } => {
  const seen = new Set([id]);
  let current: readonly [string, Entry] = [id, entry];
  for (let next = corrections.get(id); next && !seen.has(next[0]); next = corrections.get(next[0])) {
    seen.add(next[0]);
    current = next;
  }
  return { id: current[0], entry: current[1], withdrawn: current[1].withdrawn === true };
};

/** What did an entry change? What it lists; else what its action on its target does when it was done. Marks, failures and preparations change nothing by themselves. */
export const effectsOf = (entry: Entry, device: Device, assessment: Assessment): LogEffects => {
  const lists = {
    released: entry.released ?? [],
    freed: entry.free ?? [],
    aside: entry.aside ?? [],
    refitted: entry.refitted ?? [],
  };
  if (entry.outcome === 'failed' || entry.do === undefined) return entry.do === undefined ? NOTHING : lists;
  const { target } = entry;
  if (entry.outcome === 'partial' || target === undefined) return lists;
  if (REFITTING.has(entry.do)) return { ...lists, refitted: entry.refitted ?? [target] };
  if (entry.do === 'lift') return { ...lists, freed: entry.free ?? (entry.aside ? [] : [target]) };
  if (entry.do === 'fold-aside') return { ...lists, aside: entry.aside ?? (entry.free ? [] : [target]) };
  if (!RELEASING.has(entry.do)) return lists;
  if (device.fasteners.has(target)) return { ...lists, released: entry.released ?? [target] };
  return {
    ...lists,
    released: entry.released ?? partJoints(assessment, target, entry),
    freed: entry.free ?? (entry.aside ? [] : [target]),
  };
};

const partJoints = (assessment: Assessment, part: string, entry: Entry): readonly string[] => {
  const described = describedJoints(assessment, part, entry);
  return described.length > 0 ? described : [jointOf(part)];
};

const goalsOf = (entry: Entry): readonly string[] | undefined =>
  entry.goal === undefined ? undefined : Array.isArray(entry.goal) ? entry.goal : [entry.goal];

/** What did a session do, entry by entry, corrections applied? Linear but for the sort by time. */
export const loggedActions = (assessment: Assessment, device: Device, sessionId: string): readonly LoggedAction[] => {
  const session = assessment.sessions?.[sessionId];
  if (!session) return [];
  return standingEntries(session).map(([entry, record]) => ({
    session: sessionId,
    entry,
    specimen: session.specimen,
    kind: session.kind,
    record,
    goals: goalsOf(record),
    effects: effectsOf(record, device, assessment),
  }));
};

/** Which sessions make one run from a complete specimen? First to last, each left by the one before. */
export interface BenchRun {
  readonly specimen: string;
  readonly sessions: readonly string[];
}

/** Which runs does a record hold? One for each session chain that begins complete, in the order of their starts; a broken chain begins where it is broken. */
export const benchRuns = (assessment: Assessment): readonly BenchRun[] => {
  const sessions = assessment.sessions ?? {};
  const next = new Map<string, string[]>();
  const heads: string[] = [];
  const byStart = Object.keys(sessions).sort((a, b) => startMs(sessions[a]) - startMs(sessions[b]) || (a < b ? -1 : 1));
  for (const id of byStart) {
    const from = sessions[id]?.startsAs;
    const before = typeof from === 'object' ? from.leftBy : undefined;
    if (before === undefined || !sessions[before] || sessions[before]?.specimen !== sessions[id]?.specimen)
      heads.push(id);
    else next.set(before, [...(next.get(before) ?? []), id]);
  }
  return heads.map((head) => ({ specimen: sessions[head]?.specimen ?? '', sessions: chainFrom(head, next) }));
};

const startMs = (session: Session | undefined): number => (session ? Date.parse(session.start) : 0);

const chainFrom = (head: string, next: ReadonlyMap<string, readonly string[]>): string[] => {
  const chain = [head];
  const seen = new Set(chain);
  for (let at: string | undefined = next.get(head)?.[0]; at !== undefined && !seen.has(at); at = next.get(at)?.[0]) {
    chain.push(at);
    seen.add(at);
  }
  return chain;
};

/** Did the run begin with the specimen complete? Only then what was off is known. */
export const startsComplete = (assessment: Assessment, run: BenchRun): boolean =>
  assessment.sessions?.[run.sessions[0] ?? '']?.startsAs === 'complete';
