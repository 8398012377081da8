import { type Device, RELEASING } from '../device/device.ts';
import type { Assessment, Entry, Way } from '../schema/assessment.ts';
import { type LoggedAction, loggedActions } from './bench-log.ts';
import { type ActionDuration, actionDurations } from './durations.ts';
import { loggedWay, preparesFor, wayOfEntry } from './way-of-entry.ts';

/** What has the bench done with one way of a fastener? Counts from measured sessions, and whether it ever worked at all. */
export interface WayExperience {
  readonly done: number;
  /** Tries in measured sessions: successes damaged nothing, damages damaged something, the rest failed. */
  readonly tries: number;
  readonly successes: number;
  readonly damages: number;
  readonly entries: readonly string[];
}

/** One manner in which a part was moved in the log. */
export interface LoggedRemoval {
  readonly becomes: 'aside' | 'free';
  readonly do: 'lift' | 'fold-aside' | Exclude<Entry['do'], undefined>;
  readonly tools: readonly string[] | undefined;
  readonly entries: readonly string[];
}

/** Everything the log teaches about how things come off and how long it takes. */
export interface Experience {
  /** Ways of fasteners for which the record describes none. */
  readonly loggedWays: ReadonlyMap<string, Readonly<Record<string, Way>>>;
  readonly ways: ReadonlyMap<string, WayExperience>;
  readonly removals: ReadonlyMap<string, readonly LoggedRemoval[]>;
  /** Durations of measured actions [ms] by `subject/way/do` (fasteners) or `subject//do` (parts), shared ones apart. */
  readonly durations: ReadonlyMap<string, readonly number[]>;
}

/** Key of the durations of one action of a way. */
export const durationKey = (subject: string, way: string | undefined, action: string): string =>
  `${subject}/${way ?? ''}/${action}`;

/** Key of a way of a fastener. */
export const wayKey = (fastener: string, way: string): string => `${fastener}/${way}`;

/** What does the whole log teach? Ways done, tried and damaged, removals, durations. Only measured sessions feed odds and times. Linear in the log. */
export const experienceOf = (assessment: Assessment, device: Device): Experience => {
  const gathered = new Gatherer(device);
  for (const [id, session] of Object.entries(assessment.sessions ?? {})) {
    const actions = loggedActions(assessment, device, id);
    gathered.session(actions, actionDurations(assessment, session, actions));
  }
  return gathered.result();
};

class Gatherer {
  private readonly device: Device;
  private readonly loggedWays = new Map<string, Record<string, Way>>();
  private readonly ways = new Map<
    string,
    { done: number; tries: number; successes: number; damages: number; entries: string[] }
  >();
  private readonly removals = new Map<string, LoggedRemoval[]>();
  private readonly durations = new Map<string, number[]>();
  private readonly shared = new Map<string, number[]>();

  constructor(device: Device) {
    this.device = device;
  }

  session(actions: readonly LoggedAction[], durations: ReadonlyMap<string, ActionDuration>): void {
    const waiting: LoggedAction[] = [];
    for (const action of actions) {
      waiting.push(action);
      for (const id of new Set([...action.effects.released, ...this.tried(action)]))
        this.attempt(id, action, { waiting, durations });
      for (const id of action.effects.freed) this.removal(id, 'free', action, durations);
      for (const id of action.effects.aside) this.removal(id, 'aside', action, durations);
    }
  }

  private tried(action: LoggedAction): readonly string[] {
    const { target, do: verb, because } = action.record;
    return action.record.outcome === 'failed' &&
      because !== 'blocked' &&
      because !== 'interrupted' &&
      target !== undefined &&
      RELEASING.has(verb ?? '') &&
      this.device.fasteners.has(target)
      ? [target]
      : [];
  }

  private attempt(
    id: string,
    action: LoggedAction,
    context: { waiting: readonly LoggedAction[]; durations: ReadonlyMap<string, ActionDuration> },
  ): void {
    const fastener = this.device.fasteners.get(id);
    if (!fastener) return;
    const preparations = this.preparations(id, action, context.waiting);
    let way = wayOfEntry(fastener, action.record);
    if (way === undefined && Object.keys(fastener.ways).length === 0) {
      const logged = loggedWay(
        action.record,
        preparations.map((step) => step.record),
      );
      way = logged.id;
      this.loggedWays.set(id, { ...this.loggedWays.get(id), [way]: logged.way });
    }
    if (way === undefined) return;
    this.count(wayKey(id, way), action, action.effects.released.includes(id));
    if (action.kind !== 'measured') return;
    for (const step of [...preparations, action])
      this.time(durationKey(id, way, step.record.do ?? ''), context.durations.get(step.entry));
  }

  private preparations(id: string, action: LoggedAction, waiting: readonly LoggedAction[]): readonly LoggedAction[] {
    const fastener = this.device.fasteners.get(id);
    if (!fastener) return [];
    const lastRelease = waiting.findLastIndex((other) => other !== action && other.effects.released.includes(id));
    return waiting
      .slice(lastRelease + 1)
      .filter((other) => other !== action && preparesFor(other.record, fastener, this.device));
  }

  private count(key: string, action: LoggedAction, success: boolean): void {
    const sofar = this.ways.get(key) ?? { done: 0, tries: 0, successes: 0, damages: 0, entries: [] };
    if (success) sofar.done += 1;
    if (action.kind === 'measured') {
      sofar.tries += 1;
      const damaged = (action.record.damage?.length ?? 0) > 0;
      if (damaged) sofar.damages += 1;
      else if (success) sofar.successes += 1;
    }
    sofar.entries.push(`sessions/${action.session}/entries/${action.entry}`);
    this.ways.set(key, sofar);
  }

  private removal(
    id: string,
    becomes: 'aside' | 'free',
    action: LoggedAction,
    durations: ReadonlyMap<string, ActionDuration>,
  ): void {
    const known = this.removals.get(id) ?? [];
    const { do: verb = 'lift', tools } = action.record;
    const address = `sessions/${action.session}/entries/${action.entry}`;
    const same = known.findIndex(
      (other) => other.becomes === becomes && other.do === verb && String(other.tools) === String(tools),
    );
    const old = known[same];
    if (old) known[same] = { ...old, entries: [...old.entries, address] };
    else known.push({ becomes, do: verb, tools, entries: [address] });
    this.removals.set(id, known);
    if (action.kind === 'measured' && action.effects.released.length === 0)
      this.time(durationKey(id, undefined, becomes), durations.get(action.entry));
  }

  private time(key: string, duration: ActionDuration | undefined): void {
    if (!duration) return;
    const into = duration.shared ? this.shared : this.durations;
    into.set(key, [...(into.get(key) ?? []), duration.milliseconds]);
  }

  result(): Experience {
    const durations = new Map([...this.shared, ...this.durations]);
    return { loggedWays: this.loggedWays, ways: this.ways, removals: this.removals, durations };
  }
}
