import type { RouteAction } from '#routes/problem/route-problem';
import type { TryChances } from './moves.ts';

/** Which end of an action's odds is meant? `best`: most success, least damage; `worst`: the reverse. */
export type OddsEnd = 'best' | 'mean' | 'worst';

/** What are the chances of one try of an action at an end of its odds? Without odds it succeeds surely. Damage is kept first where both ends exceed 1. */
export const chancesAt = (action: RouteAction, end: OddsEnd): TryChances => {
  const { odds } = action;
  if (!odds) return { success: 1, damage: 0 };
  if (end === 'mean') return { success: odds.success.mean, damage: odds.damage.mean };
  const damage = end === 'best' ? odds.damage.low : odds.damage.high;
  const success = end === 'best' ? odds.success.high : odds.success.low;
  return { success: Math.min(success, 1 - damage), damage };
};

/** What are the chances of one try of an action at the means of its odds? */
export const chancesAtMean = (action: RouteAction): TryChances => chancesAt(action, 'mean');

/** Are an action's odds an interval, so that the two ends say different things? */
export const isInterval = ({ odds }: RouteAction): boolean =>
  odds !== undefined && (odds.success.low < odds.success.high || odds.damage.low < odds.damage.high);
