import type { MissingFact } from '#quantity/explained';
import { NO_TRIALS } from '#record/log/trials';
import type { RouteSource } from '#routes/problem/from-record';
import type { FastenerClass, ToolClass } from '../input.ts';
import type { ClassRange } from './class-ranges.ts';

/**
 * What is missing to know what holds a part at all? Undefined where a fastener is recorded for it, or where it came in a trial
 * or on the bench: then what held it had been released. A sight says only what must be off before it can be reached.
 */
export const missingHolders = (part: string, { device, trials }: RouteSource): MissingFact | undefined => {
  const described = device.parts.get(part);
  if (!described || described.crossing.length > 0) return undefined;
  if ((trials.get(part) ?? NO_TRIALS).positive.length > 0) return undefined;
  return {
    address: `parts/${part}/trials`,
    what: `which fasteners hold ${described.name}`,
    remedy: 'record each fastener with its ends (between); if nothing holds it, take it out and record the trial',
  };
};

/** Which class decides where fasteners are not recorded? None better than what was met; at worst one below the scale. */
export const withUnknownHolders = <C extends FastenerClass | ToolClass>(
  range: ClassRange<C>,
  missing: MissingFact | undefined,
): ClassRange<C | 'below-scale'> =>
  missing ? { ...range, worst: 'below-scale', missing: [...range.missing, missing] } : range;
