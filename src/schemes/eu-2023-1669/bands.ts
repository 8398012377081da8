import type { FastenerClass, ToolClass } from './input.ts';

/** One band of the disassembly depth table: the greatest number of steps that still earns its points. */
export interface StepBand {
  readonly upTo: number;
  readonly points: number;
}

/**
 * How many points does a number of steps earn? The first band whose `upTo` is not exceeded.
 * Source: Regulation (EU) 2023/1669, Annex IV point 5, table of DDi (read).
 */
export const STEP_BANDS: readonly StepBand[] = [
  { upTo: 2, points: 5 },
  { upTo: 5, points: 4 },
  { upTo: 10, points: 3 },
  { upTo: 15, points: 2 },
  { upTo: Number.POSITIVE_INFINITY, points: 1 },
];

/** How many points DDi does a part reached in `steps` steps earn? 1 to 5 (Annex IV point 5, table of DDi). */
export const stepPoints = (steps: number): number => STEP_BANDS.find((band) => steps <= band.upTo)?.points ?? 1;

/** Which numbers of steps earn these points? Least and greatest; the greatest of the last band is infinite. */
export const stepsEarning = (points: number): { readonly least: number; readonly greatest: number } | undefined => {
  const index = STEP_BANDS.findIndex((band) => band.points === points);
  const band = STEP_BANDS[index];
  if (!band) return undefined;
  const above = STEP_BANDS[index - 1];
  return { least: above ? above.upTo + 1 : 0, greatest: band.upTo };
};

/**
 * How many points Fi does the worst fastener met earn? A fastener whose removal damages the product or leaves residue
 * has no entry: the table ends at removable.
 * Source: Regulation (EU) 2023/1669, Annex IV point 5, table of Fi; classes Annex I (17) to (19) (read).
 */
export const FASTENER_POINTS: Readonly<Record<Exclude<FastenerClass, 'below-scale'>, number>> = {
  reusable: 5,
  resupplied: 3,
  removable: 1,
};

/**
 * How many points Ti does the worst tool needed earn? A proprietary tool has no entry: the table ends at commercially
 * available.
 * Source: Regulation (EU) 2023/1669, Annex IV point 5, table of Ti; classes Annex I (42) to (44) (read).
 */
export const TOOL_POINTS: Readonly<Record<Exclude<ToolClass, 'below-scale'>, number>> = {
  none: 5,
  basic: 4,
  'with-spare': 3,
  'with-product': 2,
  commercial: 1,
};

/**
 * How many steps does pairing by remote notification or authorisation add, for each such action?
 * Source: Regulation (EU) 2023/1669, Annex IV point 5, counting of steps (read).
 */
export const STEPS_PER_REMOTE_ACTION = 5;
