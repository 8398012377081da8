import { PREPARING } from '../device/action-kinds.ts';
import type { Device } from '../device/device.ts';
import { partOfJoint } from '../device/joints.ts';
import type { LoggedAction } from './bench-log.ts';

interface Noted {
  readonly at: number;
  readonly action: LoggedAction;
}

type Sort = 'heat' | 'dissolve' | 'cool' | 'partial' | 'clean' | 'failed' | 'failed-move';

const PREPARATIONS: readonly Sort[] = ['heat', 'dissolve', 'cool'];

/**
 * Follows a log and tells what led up to a fastener's release or a part's removal, since it last came off. Ask first, then
 * {@link note} the action. Of preparations repeated after a failed attempt, those since the last failure count; one that was
 * not repeated still holds. Cost of asking: that of the answer, but for {@link failed}.
 */
export class GroundworkTrail {
  private readonly device: Device;
  private readonly noted = new Map<string, Noted[]>();
  private readonly lastOff = new Map<string, number>();
  private count = 0;

  constructor(device: Device) {
    this.device = device;
  }

  /** Takes in an action, whatever it was. */
  note(action: LoggedAction): void {
    const at = this.count++;
    const sort = sortOf(action);
    const { target } = action.record;
    if (sort && target !== undefined) {
      const list = this.noted.get(`${target}/${sort}`);
      if (list) list.push({ at, action });
      else this.noted.set(`${target}/${sort}`, [{ at, action }]);
    }
    const { released, freed, aside } = action.effects;
    for (const id of [...released, ...freed, ...aside]) this.lastOff.set(id, at);
  }

  /** Which heat, solvent and cold did it rest on, in the way named (undefined: not known which)? */
  preparations(id: string, way: string | undefined): readonly LoggedAction[] {
    if (!this.device.fasteners.has(id)) return [];
    return inOrder(PREPARATIONS.flatMap((sort) => this.lastRound(id, sort, way)));
  }

  /** Which work had taken part of the set off? */
  partial(id: string): readonly LoggedAction[] {
    return inOrder(this.since(id, 'partial'));
  }

  /** What had been cleaned before it came off? */
  cleaning(id: string): readonly LoggedAction[] {
    return inOrder(this.since(id, 'clean'));
  }

  /** Which attempts had failed, with the preparations that only they used? */
  failed(id: string, way: string | undefined): readonly LoggedAction[] {
    const used = new Set(this.preparations(id, way));
    const prepared = this.device.fasteners.has(id) ? PREPARATIONS.flatMap((sort) => this.since(id, sort)) : [];
    const attempts = [...this.since(id, 'failed'), ...this.since(id, 'failed-move')];
    return inOrder([...attempts, ...prepared.filter(({ action }) => !used.has(action))]);
  }

  /** Of preparations of one sort, those with no failed attempt between them and the last one. */
  private lastRound(id: string, sort: Sort, way: string | undefined): readonly Noted[] {
    const from = this.lastOff.get(id) ?? -1;
    const lists = this.lists(id, sort);
    const last = Math.max(...lists.map((list) => list.findLast(({ action }) => serves(action, way))?.at ?? -1));
    if (last <= from) return [];
    const attempts = this.lists(id, 'failed').map((list) => lastAttemptBefore(list, last));
    const since = Math.max(from, ...attempts);
    return lists.flatMap((list) => latest(list, since).filter(({ action }) => serves(action, way)));
  }

  private since(id: string, sort: Sort): readonly Noted[] {
    const from = this.lastOff.get(id) ?? -1;
    return this.lists(id, sort).flatMap((list) => latest(list, from));
  }

  /** What of one sort was noted on it; for a fastener also what was done on the parts it joins, cleaning and their own moves apart. */
  private lists(id: string, sort: Sort): readonly (readonly Noted[])[] {
    const own = this.noted.get(`${id}/${sort}`) ?? [];
    const fastener = this.device.fasteners.get(id);
    if (!fastener || sort === 'clean' || sort === 'failed-move') return [own];
    const ends = new Set(fastener.between ?? [partOfJoint(id) ?? id]);
    const parts = [...ends].filter((end) => end !== id && this.device.parts.has(end));
    return [own, ...parts.map((part) => this.noted.get(`${part}/${sort}`) ?? [])];
  }
}

/** Does a preparation serve this way? One logged for another way does not. */
const serves = ({ record }: LoggedAction, way: string | undefined): boolean =>
  way === undefined || record.way === undefined || record.way === way;

/** When was the last failed attempt before a moment, failed preparations apart? -1 where there was none. */
const lastAttemptBefore = (failed: readonly Noted[], moment: number): number => {
  let index = countUpTo(failed, moment - 1) - 1;
  while (index >= 0 && PREPARING.has(failed[index]?.action.record.do ?? '')) index--;
  return failed[index]?.at ?? -1;
};

const sortOf = ({ record }: LoggedAction): Sort | undefined => {
  if (record.outcome === 'failed') return record.do === 'lift' || record.do === 'fold-aside' ? 'failed-move' : 'failed';
  if (PREPARING.has(record.do ?? '')) return record.do as Sort;
  if (record.outcome === 'partial') return 'partial';
  return record.do === 'clean' ? 'clean' : undefined;
};

const inOrder = (noted: readonly Noted[]): readonly LoggedAction[] =>
  noted.toSorted((a, b) => a.at - b.at).map(({ action }) => action);

/** Those noted after a moment. */
const latest = (noted: readonly Noted[], moment: number): readonly Noted[] => noted.slice(countUpTo(noted, moment));

/** How many were noted up to a moment, itself included? By halves. */
const countUpTo = (noted: readonly Noted[], moment: number): number => {
  let low = 0;
  let high = noted.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((noted[middle]?.at ?? 0) <= moment) low = middle + 1;
    else high = middle;
  }
  return low;
};
