/** How near must two figures be? Absolutely, in their unit, or relatively, as a share of the expected one. */
export type Tolerance = { readonly abs: number } | { readonly rel: number };

/**
 * Is a figure as near to the expected one as its source justifies? The tolerance is named, so that a printed precision
 * (`{ abs: 0.005 }` for two decimals) cannot be mistaken for a number of digits. Figures that are not finite are never near.
 */
export const isClose = (actual: number, expected: number, tolerance: Tolerance): boolean => {
  if (!Number.isFinite(actual) || !Number.isFinite(expected)) return false;
  const allowed = 'abs' in tolerance ? tolerance.abs : tolerance.rel * Math.abs(expected);
  return Math.abs(actual - expected) <= allowed;
};
