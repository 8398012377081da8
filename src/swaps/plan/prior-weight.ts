import type { Suspicion } from '../model/suspicion.ts';
import type { Odds } from './swap-problem.ts';

/** What counts 0 beforehand still has to be excluded: its odds are lifted to this, so that a plan provides for it. */
const LEAST = 1e-6;

/**
 * How much does one suspicion weigh before any run? The odds of its explanation; damage and misreading befall a part that is
 * accepted, once per handled run and once per run; a bug may end with each version but the newest of `versions`.
 */
export const priorWeight = ({ explanation, damagedFrom }: Suspicion, odds: Odds, versions: number): number => {
  const of = Math.max(odds[explanation] ?? 0, LEAST);
  const accepted = Math.max(odds.accepted ?? 0, LEAST);
  if (explanation === 'handling-damage') return accepted * of ** Object.keys(damagedFrom ?? {}).length;
  if (explanation === 'test-error') return accepted * of;
  if (explanation === 'firmware-bug') return of / Math.max(1, versions - 1);
  return of;
};
