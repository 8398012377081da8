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
  const known = remembered.get(duration);
  if (known !== undefined) return known;
  const milliseconds = readMilliseconds(duration);
  if (milliseconds !== undefined && remembered.size < REMEMBERED) remembered.set(duration, milliseconds);
  return milliseconds;
};

/** Durations read before: a long log repeats the same few. The answer is the same with and without. */
const remembered = new Map<string, number>();
const REMEMBERED = 5_000;

const readMilliseconds = (text: string): number | undefined => {
  const { quantity } = parseQuantity(text);
  const seconds = quantity && inUnit(quantity, 's');
  return seconds && Number(roundToInteger(times(seconds.exact.value, rational(1000n))));
};
