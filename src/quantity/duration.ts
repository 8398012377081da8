import { parseQuantity } from './parse-quantity.ts';
import { inUnit } from './quantity.ts';
import { rational, roundToInteger, times } from './rational.ts';

/**
 * How long is a duration of the record [integer ms, halves away from zero]? A bare number is seconds; text carries its unit
 * (`8 min`, `45 ± 5 s`), a range counts with its middle. `undefined` when it is missing or no quantity of time.
 */
export const durationMilliseconds = (duration: number | string | undefined): number | undefined => {
  if (duration === undefined) return undefined;
  if (typeof duration === 'number') return Number.isFinite(duration) ? Math.round(duration * 1000) : undefined;
  const { quantity } = parseQuantity(duration);
  const seconds = quantity && inUnit(quantity, 's');
  return seconds && Number(roundToInteger(times(seconds.exact.value, rational(1000n))));
};
