import { PARTING, REFITTING, RELEASING } from '../device/action-kinds.ts';
import type { Device } from '../device/device.ts';
import { jointsReleased } from '../device/joints.ts';
import type { Entry } from '../schema/assessment.ts';

/** What did one logged action change on its specimen? Fastener ids released; part ids freed, laid aside; things put back. */
export interface LogEffects {
  readonly released: readonly string[];
  readonly freed: readonly string[];
  readonly aside: readonly string[];
  readonly refitted: readonly string[];
}

/** The fields of an entry, or of a step of a procedure, that say what it changed. */
export type Work = Partial<Pick<Entry, 'do' | 'target' | 'outcome' | 'released' | 'free' | 'aside' | 'refitted'>>;

/**
 * What did a piece of work change? What it lists; else what its action on its target does when it was done. Marks without a
 * name, failures, partial work and preparations change nothing beyond what they list.
 */
export const effectsOf = (work: Work, device: Device): LogEffects => {
  const listed: LogEffects = {
    released: work.released ?? [],
    freed: work.free ?? [],
    aside: work.aside ?? [],
    refitted: work.refitted ?? [],
  };
  const { target, do: action } = work;
  if (action === undefined || target === undefined || (work.outcome ?? 'done') !== 'done') return listed;
  if (REFITTING.has(action)) return { ...listed, refitted: work.refitted ?? [target] };
  if (device.fasteners.has(target))
    return RELEASING.has(action) || action === 'lift' ? { ...listed, released: work.released ?? [target] } : listed;
  const away = work.free === undefined && work.aside === undefined ? [target] : undefined;
  if (action === 'lift') return { ...listed, freed: away ?? listed.freed };
  if (action === 'fold-aside') return { ...listed, aside: away ?? listed.aside };
  if (!RELEASING.has(action)) return listed;
  return {
    ...listed,
    released: work.released ?? jointsReleased(device.joints, target, action),
    freed: PARTING.has(action) ? (away ?? listed.freed) : listed.freed,
  };
};
