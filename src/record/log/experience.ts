import { RELEASING } from '../device/action-kinds.ts';
import type { Device } from '../device/device.ts';
import { jointsReleased } from '../device/joints.ts';
import { sameTools } from '../device/tool-set.ts';
import type { Assessment, Entry, Way } from '../schema/assessment.ts';
import { addressOf, type LoggedAction, loggedActions } from './bench-log.ts';
import { damageIndex, damageVerdictAt } from './damage-index.ts';
import { type ActionDuration, actionDurations } from './durations.ts';
import { GroundworkTrail } from './groundwork.ts';
import { loggedWay, wayOfEntry } from './way-of-entry.ts';

/** What has the bench done with one way of a fastener? Counts from measured sessions, and whether it ever worked at all. */
export interface WayExperience {
  /** How often it worked in any session without damage to the product. */
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
  readonly do: Exclude<Entry['do'], undefined>;
  readonly tools: readonly string[] | undefined;
  readonly entries: readonly string[];
}

/** Everything the log teaches about how things come off and how long it takes. */
export interface Experience {
  /** Ways of fasteners for which the record describes none. */
  readonly loggedWays: ReadonlyMap<string, Readonly<Record<string, Way>>>;
  readonly ways: ReadonlyMap<string, WayExperience>;
  readonly removals: ReadonlyMap<string, readonly LoggedRemoval[]>;
  /** Durations of measured actions [ms] by {@link durationKey}; shared ones only where nothing else was measured. */
  readonly durations: ReadonlyMap<string, readonly number[]>;
}

/** Key of the durations of one action: `fastener/way/action`, or `part//free` and `part//aside` for a part's own move. */
export const durationKey = (subject: string, way: string | undefined, action: string): string =>
  `${subject}/${way ?? ''}/${action}`;

/** Key of a way of a fastener. */
export const wayKey = (fastener: string, way: string): string => `${fastener}/${way}`;

/**
 * What does the whole log teach? Ways done, tried and damaged, removals, durations. Only measured sessions feed odds and
 * times. Time spent on part of a set is added to what released the rest. Linear in the log.
 */
export const experienceOf = (assessment: Assessment, device: Device): Experience => {
  const gathered = new Gatherer(assessment, device);
  for (const [id, session] of Object.entries(assessment.sessions ?? {})) {
    const actions = loggedActions(assessment, device, id);
    gathered.session(actions, actionDurations(assessment, session, actions));
  }
  return gathered.result();
};

type Durations = ReadonlyMap<string, ActionDuration>;
type Mutable<T> = { -readonly [K in keyof T]: T[K] extends readonly string[] ? string[] : T[K] };

class Gatherer {
  private readonly assessment: Assessment;
  private readonly device: Device;
  private readonly loggedWays = new Map<string, Record<string, Way>>();
  private readonly ways = new Map<string, Mutable<WayExperience>>();
  private readonly removals = new Map<string, Mutable<LoggedRemoval>[]>();
  private readonly durations = new Map<string, number[]>();
  private readonly shared = new Map<string, number[]>();

  constructor(assessment: Assessment, device: Device) {
    this.assessment = assessment;
    this.device = device;
  }

  session(actions: readonly LoggedAction[], durations: Durations): void {
    const trail = new GroundworkTrail(this.device);
    for (const action of actions) {
      for (const id of new Set([...action.effects.released, ...this.failedOn(action)]))
        this.attempt(id, action, { trail, durations });
      for (const id of action.effects.freed) this.removal(id, 'free', { action, durations });
      for (const id of action.effects.aside) this.removal(id, 'aside', { action, durations });
      trail.note(action);
    }
  }

  /** Which fasteners did a failed attempt try its way on? None where access or an interruption stopped it: the way was not tried. */
  private failedOn({ record }: LoggedAction): readonly string[] {
    const { target, do: verb = '', because, outcome } = record;
    if (outcome !== 'failed' || because === 'blocked' || because === 'interrupted') return [];
    if (target === undefined || !RELEASING.has(verb)) return [];
    if (this.device.fasteners.has(target)) return [target];
    return this.device.parts.has(target) ? jointsReleased(this.device.joints, target, verb) : [];
  }

  private attempt(
    id: string,
    action: LoggedAction,
    { trail, durations }: { readonly trail: GroundworkTrail; readonly durations: Durations },
  ): void {
    const fastener = this.device.fasteners.get(id);
    if (!fastener) return;
    const preparations = trail.preparations(id, action.record.way);
    const prepared = preparations.map(({ record }) => record);
    let way = wayOfEntry(fastener, action.record, prepared);
    if (way === undefined && Object.keys(fastener.ways).length === 0) {
      const logged = loggedWay(action.record, prepared);
      way = logged.id;
      this.loggedWays.set(id, { ...this.loggedWays.get(id), [way]: logged.way });
    }
    if (way === undefined) return;
    const success = action.effects.released.includes(id);
    this.count(wayKey(id, way), action, success);
    if (action.kind === 'measured' && success)
      this.timeRelease({ id, way, action }, { preparations, partial: trail.partial(id) }, durations);
  }

  private timeRelease(
    { id, way, action }: { readonly id: string; readonly way: string; readonly action: LoggedAction },
    { preparations, partial }: Readonly<Record<'preparations' | 'partial', readonly LoggedAction[]>>,
    durations: Durations,
  ): void {
    for (const step of preparations) this.time(durationKey(id, way, step.record.do ?? ''), durations.get(step.entry));
    const own = [...partial.filter(({ record }) => record.do === action.record.do), action];
    const parts = own.map(({ entry }) => durations.get(entry));
    if (parts.includes(undefined)) return;
    const several = action.effects.released.length;
    const milliseconds = parts.reduce((sum, part) => sum + (part?.milliseconds ?? 0), 0) / several;
    const shared = several > 1 || parts.some((part) => part?.shared === true);
    this.time(durationKey(id, way, action.record.do ?? ''), { milliseconds: Math.round(milliseconds), shared });
  }

  private count(key: string, action: LoggedAction, success: boolean): void {
    const sofar = this.ways.get(key) ?? { done: 0, tries: 0, successes: 0, damages: 0, entries: [] };
    const index = damageIndex(this.assessment, this.device);
    const address = addressOf(action);
    if (success && damageVerdictAt(index, address) === 'whole') sofar.done += 1;
    if (action.kind === 'measured') {
      sofar.tries += 1;
      if (index.has(address)) sofar.damages += 1;
      else if (success) sofar.successes += 1;
    }
    sofar.entries.push(address);
    this.ways.set(key, sofar);
  }

  private removal(
    id: string,
    becomes: 'aside' | 'free',
    { action, durations }: { readonly action: LoggedAction; readonly durations: Durations },
  ): void {
    const known = this.removals.get(id) ?? [];
    const { do: verb = 'lift', tools } = action.record;
    const same = known.find(
      (other) =>
        other.becomes === becomes &&
        other.do === verb &&
        (other.tools === undefined) === (tools === undefined) &&
        sameTools(other.tools, tools),
    );
    if (same) same.entries.push(addressOf(action));
    else known.push({ becomes, do: verb, tools: tools && [...tools], entries: [addressOf(action)] });
    this.removals.set(id, known);
    if (action.kind === 'measured' && action.effects.released.length === 0)
      this.time(durationKey(id, undefined, becomes), durations.get(action.entry));
  }

  private time(key: string, duration: ActionDuration | undefined): void {
    if (!duration) return;
    const into = duration.shared ? this.shared : this.durations;
    const list = into.get(key);
    if (list) list.push(duration.milliseconds);
    else into.set(key, [duration.milliseconds]);
  }

  result(): Experience {
    const durations = new Map([...this.shared, ...this.durations]);
    return { loggedWays: this.loggedWays, ways: this.ways, removals: this.removals, durations };
  }
}
