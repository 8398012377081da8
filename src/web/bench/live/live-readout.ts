import type { Device } from '#record/device/device';
import { benchRuns, startsComplete } from '#record/log/bench-log';
import type { Assessment, Entry, Session } from '#record/schema/assessment';
import { isUnnamed } from '../commands/bench-patches.ts';
import { keptDevice } from './kept-device.ts';
import { correctedIn, type LogLine, logLines } from './log-lines.ts';
import { logSoFar } from './log-so-far.ts';

/** Everything the bench shows of a session that follows from the record. */
export interface LiveReadout {
  readonly device: Device;
  readonly log: readonly LogLine[];
  /** Ids of what is off the specimen now: fasteners released, parts aside or free. */
  readonly off: ReadonlySet<string>;
  readonly partsFree: readonly string[];
  readonly partsAside: readonly string[];
  readonly unnamed: readonly string[];
  /** Steps so far of what was done for the goal or for everything; what turns out needless is still in. */
  readonly depth: number;
  /** Did the run begin with the specimen complete? Else nobody knows all that is off. */
  readonly isStartKnown: boolean;
  /** The last named entries, the last first. */
  readonly recent: readonly Entry[];
}

/**
 * What does the bench show of a session? From the record alone, so that a second screen shows the same. What follows from
 * entries that are the same as before is kept, so that a mark costs a look at the log and no reading of all of it anew.
 */
export const liveReadout = (document: Assessment, session: string, goal: string | undefined): LiveReadout => {
  const record = document.sessions?.[session];
  const device = keptDevice(document);
  const run = benchRuns(document).find(({ sessions }) => sessions.includes(session));
  const soFar = logSoFar({ assessment: document, device, sessions: run?.sessions ?? [], goal });
  const { released, parts } = soFar.state;
  const moved = [...parts].filter(([, { carriedBy }]) => carriedBy === undefined);
  const nameOf = nameIn(device);
  return {
    device,
    log: record ? logLines(record, device) : [],
    off: new Set([...released.keys(), ...parts.keys()]),
    partsFree: moved.filter(([, part]) => part.state === 'free').map(([key]) => nameOf(key)),
    partsAside: moved.filter(([, part]) => part.state === 'aside').map(([key]) => nameOf(key)),
    unnamed: record ? unnamedMarks(record) : [],
    depth: soFar.depth,
    isStartKnown: run !== undefined && startsComplete(document, run),
    recent: soFar.lastNamed(RECENT),
  };
};

/** How many of the last entries a suggestion looks at. */
const RECENT = 20;

/** How is a part or fastener called? */
export const nameIn =
  (device: Device) =>
  (key: string): string =>
    device.parts.get(key)?.name ?? device.fasteners.get(key)?.name ?? key.replaceAll('-', ' ');

/** Marks that have no name yet, first to last. */
const unnamedMarks = (session: Session): readonly string[] => {
  const gone = correctedIn(session);
  return Object.entries(session.entries)
    .filter(([key, entry]) => isUnnamed(entry) && entry.began === undefined && !gone.has(key))
    .sort(([, a], [, b]) => a.at - b.at)
    .map(([key]) => key);
};
