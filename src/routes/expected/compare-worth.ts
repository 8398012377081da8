/** Relative width inside which two sums of the same figures, added in another order, count as one figure. */
const SAME_SUM_RELATIVE = 1e-12;

/** Are two computed sums the same figure up to rounding? */
export const nearlyEqual = (a: number, b: number): boolean =>
  Math.abs(a - b) <= SAME_SUM_RELATIVE * Math.max(1, Math.abs(a), Math.abs(b));

/** Is one computed sum less than another by more than rounding? */
export const clearlyLess = (a: number, b: number): boolean => a < b && !nearlyEqual(a, b);
