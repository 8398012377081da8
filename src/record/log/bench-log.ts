import type { Device } from '../device/device.ts';
import type { Assessment, Entry, Session } from '../schema/assessment.ts';
import { standingEntries } from '../standing-entries.ts';
import { effectsOf, type LogEffects } from './effects.ts';
import { retakeOf } from './retakes.ts';

export { standingEntries };

/** One entry as it stands after corrections, in its place in the session. */
export interface LoggedAction {
  readonly session: string;
  readonly entry: string;
  readonly specimen: string;
  /** Of the session; of what was done in a retake inside one, a retake. */
  readonly kind: Session['kind'];
  readonly record: Entry;
  readonly goals: readonly string[] | undefined;
  readonly effects: LogEffects;
}

/** What is the address of a logged action in the record? */
export const addressOf = (action: LoggedAction): string => `sessions/${action.session}/entries/${action.entry}`;

const goalsOf = (entry: Entry): readonly string[] | undefined =>
  entry.goal === undefined || Array.isArray(entry.goal) ? entry.goal : [entry.goal];

/** What did a session do, entry by entry, corrections applied? Linear but for the sort by time. */
export const loggedActions = (assessment: Assessment, device: Device, sessionId: string): readonly LoggedAction[] => {
  const session = assessment.sessions?.[sessionId];
  if (!session) return [];
  return standingEntries(session).map((standing) => loggedAction({ id: sessionId, session }, standing, device));
};

/** What did one standing entry of a session do? */
export const loggedAction = (
  { id, session }: { readonly id: string; readonly session: Session },
  [entry, record]: readonly [string, Entry],
  device: Device,
): LoggedAction => ({
  session: id,
  entry,
  specimen: session.specimen,
  kind: retakeOf(session, record) === undefined ? session.kind : 'retake',
  record,
  goals: goalsOf(record),
  effects: effectsOf(record, device),
});

/** Which sessions make one run on a specimen? First to last, each left by the one before. */
export interface BenchRun {
  readonly specimen: string;
  readonly sessions: readonly string[];
}

/**
 * Which runs does a record hold? One for each chain of sessions, in the order of their starts. A chain whose first session
 * names a session that is not there, or one on another specimen, begins where it is broken. Where two sessions go on from
 * the same one, each makes a run of its own with what came before.
 */
export const benchRuns = (assessment: Assessment): readonly BenchRun[] => {
  const sessions = assessment.sessions ?? {};
  const before = (id: string): string | undefined => {
    const from = sessions[id]?.startsAs;
    const left = typeof from === 'object' ? from.leftBy : undefined;
    return left !== undefined && sessions[left]?.specimen === sessions[id]?.specimen ? left : undefined;
  };
  const byStart = Object.keys(sessions).sort((a, b) => startOf(sessions[a]) - startOf(sessions[b]));
  const place = new Map(byStart.map((id, index) => [id, index]));
  const followed = new Set(byStart.map(before));
  return byStart
    .filter((id) => !followed.has(id))
    .map((last) => ({ specimen: sessions[last]?.specimen ?? '', sessions: chainTo(last, before) }))
    .sort((a, b) => (place.get(a.sessions[0] ?? '') ?? 0) - (place.get(b.sessions[0] ?? '') ?? 0));
};

const startOf = (session: Session | undefined): number => (session ? Date.parse(session.start) : 0);

const chainTo = (last: string, before: (id: string) => string | undefined): string[] => {
  const chain = new Set<string>();
  for (let id: string | undefined = last; id !== undefined && !chain.has(id); id = before(id)) chain.add(id);
  return [...chain].reverse();
};

/** What was done in a run, session after session? */
export const runActions = (
  { assessment, device }: { readonly assessment: Assessment; readonly device: Device },
  run: BenchRun,
): readonly LoggedAction[] => run.sessions.flatMap((session) => loggedActions(assessment, device, session));

/** Did the run begin with the specimen complete? Only then what was off is known. */
export const startsComplete = (assessment: Assessment, run: BenchRun): boolean =>
  assessment.sessions?.[run.sessions[0] ?? '']?.startsAs === 'complete';
