import { type Rational, rational, times, toNumber } from './rational.ts';

/** Seconds of one time measurement unit, exactly: 1/100,000 h (Zandin, MOST Work Measurement Systems, 4th ed., section 2). */
const SECONDS_PER_TMU: Rational = rational(36n, 1000n);

/**
 * How many time measurement units does a motion sequence take? Ten times the sum of its index values, times its frequency
 * (BasicMOST; Zandin, MOST Work Measurement Systems, 4th ed., section 4). Indices are whole numbers.
 */
export const mostTmu = (indices: readonly number[], frequency = 1): number =>
  10 * indices.reduce((sum, index) => sum + index, 0) * frequency;

/** How long does a motion sequence take [s]? `mostTmu` in seconds, plus an allowance [%] on the normal time. */
export const mostSeconds = (indices: readonly number[], { frequency = 1, allowancePercent = 0 } = {}): number =>
  tmuSeconds(mostTmu(indices, frequency), allowancePercent);

/** How long are time measurement units [s], with an allowance [%] on the normal time? Whole TMU and whole percent: exact. */
export const tmuSeconds = (tmu: number, allowancePercent = 0): number => {
  if (!Number.isInteger(tmu) || !Number.isInteger(allowancePercent)) return tmu * 0.036 * (1 + allowancePercent / 100);
  const allowance = rational(BigInt(100 + allowancePercent), 100n);
  return toNumber(times(times(rational(BigInt(tmu)), SECONDS_PER_TMU), allowance));
};
