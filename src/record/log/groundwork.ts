import { PREPARING } from '../device/action-kinds.ts';
import type { Device } from '../device/device.ts';
import { partOfJoint } from '../device/joints.ts';
import type { LoggedAction } from './bench-log.ts';

/** What was done on a fastener or part before it came off, since it last came off? Each list in the order of the log. */
export interface Groundwork {
  /** Heat, solvent and cold that the success rests on. */
  readonly preparations: readonly LoggedAction[];
  /** Work that took some of the set off. */
  readonly partial: readonly LoggedAction[];
  readonly cleaning: readonly LoggedAction[];
  /** Failed attempts, with the preparations that only they used. */
  readonly failed: readonly LoggedAction[];
}

interface Noted {
  readonly at: number;
  readonly action: LoggedAction;
}

/**
 * Follows a log and tells, at each success, what led up to it. Ask {@link before} first, then {@link note} the action. Of
 * preparations repeated after a failed attempt, those since the last failure count; a preparation not repeated still holds.
 */
export class GroundworkTrail {
  private readonly device: Device;
  private readonly noted = new Map<string, Noted[]>();
  private readonly lastOff = new Map<string, number>();
  private count = 0;

  constructor(device: Device) {
    this.device = device;
  }

  /** What led up to this fastener's release or this part's removal, in the way named (undefined: not known which)? */
  before(id: string, way: string | undefined): Groundwork {
    const since = this.since(id);
    const isPreparation = ({ record }: LoggedAction): boolean => PREPARING.has(record.do ?? '');
    const isFailure = ({ record }: LoggedAction): boolean => record.outcome === 'failed';
    const failures = since.filter(({ action }) => isFailure(action));
    const attempts = failures.filter(({ action }) => !isPreparation(action)).map(({ at }) => at);
    const prepared = since.filter(({ action }) => isPreparation(action) && !isFailure(action));
    const used = prepared.filter(
      ({ at, action }) => isOfWay(action, way) && !isRepeated({ at, action }, { prepared, attempts }),
    );
    const lost = prepared.filter((one) => !used.includes(one));
    return {
      preparations: used.map(({ action }) => action),
      partial: since.flatMap(({ action }) =>
        action.record.outcome === 'partial' && !isPreparation(action) ? action : [],
      ),
      cleaning: since.flatMap(({ action }) => (action.record.do === 'clean' && !isFailure(action) ? action : [])),
      failed: [...failures, ...lost].sort((a, b) => a.at - b.at).map(({ action }) => action),
    };
  }

  /** Takes in an action, whatever it was. */
  note(action: LoggedAction): void {
    const at = this.count++;
    const { target, do: verb = '', outcome = 'done' } = action.record;
    if (target !== undefined && (outcome !== 'done' || PREPARING.has(verb) || verb === 'clean')) {
      const list = this.noted.get(target);
      if (list) list.push({ at, action });
      else this.noted.set(target, [{ at, action }]);
    }
    for (const id of action.effects.released) this.lastOff.set(id, at);
    for (const id of [...action.effects.freed, ...action.effects.aside]) this.lastOff.set(id, at);
  }

  private since(id: string): readonly Noted[] {
    const from = this.lastOff.get(id) ?? -1;
    const fastener = this.device.fasteners.get(id);
    const own = latest(this.noted.get(id), from);
    if (!fastener) return own.filter(({ action }) => !PREPARING.has(action.record.do ?? ''));
    const ends = fastener.between ?? [partOfJoint(id) ?? id];
    const onParts = [...new Set(ends)]
      .filter((end) => end !== id && this.device.parts.has(end))
      .flatMap((end) => latest(this.noted.get(end), from))
      .filter(({ action }) => action.record.do !== 'clean' && action.record.do !== 'lift');
    return [...own, ...onParts].sort((a, b) => a.at - b.at);
  }
}

/** Does a preparation serve this way? One logged for another way does not. */
const isOfWay = ({ record }: LoggedAction, way: string | undefined): boolean =>
  way === undefined || record.way === undefined || record.way === way;

/** Was a preparation done over again after a failed attempt that it had served? */
const isRepeated = (
  { at, action }: Noted,
  { prepared, attempts }: { readonly prepared: readonly Noted[]; readonly attempts: readonly number[] },
): boolean =>
  prepared.some(
    (other) =>
      other.at > at &&
      other.action.record.do === action.record.do &&
      attempts.some((attempt) => attempt > at && attempt < other.at),
  );

const latest = (noted: readonly Noted[] | undefined, from: number): readonly Noted[] => {
  if (!noted) return [];
  let start = noted.length;
  while (start > 0 && (noted[start - 1]?.at ?? -1) > from) start--;
  return noted.slice(start);
};
