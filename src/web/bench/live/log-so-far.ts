import type { Device } from '#record/device/device';
import { toolSet } from '#record/device/tool-set';
import { type LoggedAction, loggedAction, standingEntries } from '#record/log/bench-log';
import { SpecimenState } from '#record/log/specimen-state';
import type { Assessment, Entry, Session } from '#record/schema/assessment';
import type { RouteAtom } from '#routes/problem/route-problem';
import { DEFAULT_COUNTING } from '#routes/steps/counting-rules';
import { RunningCount } from '#routes/steps/running-count';

/** The sessions of a run whose log is followed, and for what its depth is counted. */
export interface FollowedLog {
  readonly assessment: Assessment;
  readonly device: Device;
  readonly sessions: readonly string[];
  readonly goal: string | undefined;
}

/** One standing entry that says something, in its session. */
interface Said {
  readonly id: string;
  readonly session: Session;
  readonly entry: string;
  readonly record: Entry;
}

/** What a log has led to, entry by entry: what is off, and how many steps were done for the goal. */
export class LogSoFar {
  readonly state: SpecimenState;
  private readonly log: FollowedLog;
  private readonly said: Said[] = [];
  private readonly everReleased = new Set<string>();
  private readonly count: RunningCount;

  constructor(log: FollowedLog) {
    this.log = log;
    this.state = new SpecimenState(log.device);
    this.count = new RunningCount(DEFAULT_COUNTING, aidsOf(log.assessment));
  }

  /** Steps of what was done for the goal or for nothing in particular, as the law counts them under default readings. */
  get depth(): number {
    return this.count.total;
  }

  /** The last named entries, the last first. */
  lastNamed(count: number): readonly Entry[] {
    const named: Entry[] = [];
    for (let index = this.said.length - 1; index >= 0 && named.length < count; index -= 1) {
      const { record } = this.said[index] as Said;
      if (record.do !== undefined) named.push(record);
    }
    return named;
  }

  /** Does this log go on from here, so that only its rest has to be taken in? Compared by the identity of its entries. */
  leadsTo({ assessment, device, sessions, goal }: FollowedLog, said: readonly Said[]): boolean {
    const { log } = this;
    if (log.device !== device || log.goal !== goal || log.assessment.tools !== assessment.tools) return false;
    const isRun = log.sessions.length === sessions.length && log.sessions.every((id, index) => id === sessions[index]);
    return isRun && this.said.length <= said.length && this.said.every((one, index) => isSame(one, said[index]));
  }

  /** Takes in what of a log is new. */
  follow(said: readonly Said[]): void {
    for (const one of said.slice(this.said.length)) {
      const action = loggedAction(one, [one.entry, one.record], this.log.device);
      if (this.counts(action)) this.count.add(this.atomOf(action));
      this.state.apply(action);
      for (const id of action.effects.released) this.everReleased.add(id);
      this.said.push(one);
    }
  }

  private counts({ record, goals }: LoggedAction): boolean {
    const isDone = record.do !== undefined && record.outcome !== 'failed';
    return isDone && (goals === undefined || this.log.goal === undefined || goals.includes(this.log.goal));
  }

  /** What the default readings count of an action. What it released, and how long it took, they do not look at. */
  private atomOf({ record, effects }: LoggedAction): RouteAtom {
    const removed = effects.freed[0] ?? effects.aside[0];
    const place = record.place ?? record.target;
    const isAfterRelease = record.do === 'clean' && this.everReleased.has(record.target ?? '');
    return {
      do: record.do ?? 'test',
      tools: toolSet(record.tools),
      ...(place === undefined ? {} : { place }),
      ...(isAfterRelease ? { afterRelease: true } : {}),
      ...(removed === undefined
        ? {}
        : { removes: { part: removed, becomes: effects.freed.includes(removed) ? 'free' : 'aside' } }),
    };
  }
}

const isSame = (a: Said, b: Said | undefined): boolean =>
  a.record === b?.record && a.entry === b.entry && a.id === b.id;

const aidsOf = ({ tools }: Assessment): ReadonlySet<string> =>
  new Set(Object.entries(tools ?? {}).flatMap(([key, tool]) => (tool.holdingAid ? [key] : [])));

/** How many logs are kept: that of now and those that earlier marks are seen from, on both screens of a page. */
const KEPT = 4;

let kept: readonly LogSoFar[] = [];

/**
 * What has a log led to so far? What was followed before is gone on with where the log went on from it, since every mark asks
 * again: a mark without a name says nothing and costs a look at the entries; anything else in the middle begins anew.
 */
export const logSoFar = (log: FollowedLog): LogSoFar => {
  const said = log.sessions.flatMap((id) => saidIn(id, log.assessment.sessions?.[id]));
  const known = kept.find((one) => one.leadsTo(log, said));
  const soFar = known ?? new LogSoFar(log);
  soFar.follow(said);
  kept = [soFar, ...kept.filter((one) => one !== soFar)].slice(0, KEPT);
  return soFar;
};

const saidIn = (id: string, session: Session | undefined): readonly Said[] =>
  session === undefined
    ? []
    : standingEntries(session).flatMap(([entry, record]) =>
        saysNothing(record) ? [] : [{ id, session, entry, record }],
      );

/** Does an entry change nothing on the bench and name nothing, as a mark without a name? */
export const saysNothing = ({ do: action, released, free, aside, refitted }: Entry): boolean =>
  (action ?? released ?? free ?? aside ?? refitted) === undefined;
