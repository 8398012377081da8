import { dimensionName, sameDimension } from './dimension.ts';
import { compare, dividedBy, negated, plus, type Rational, rational, times, toNumber } from './rational.ts';
import { findUnit, type Unit } from './unit.ts';

/**
 * A figure with its unit, as written: one value, a value with its uncertainty (the half-width as stated), or a range. All
 * numbers are in `unit`; the exact fractions behind them are kept for conversion. The value of a range is its middle.
 */
export interface Quantity {
  readonly value: number;
  readonly unit: Unit;
  readonly uncertainty?: number;
  readonly low?: number;
  readonly high?: number;
  readonly exact: ExactQuantity;
}

/** The fractions behind a quantity, in its own unit. */
export interface ExactQuantity {
  readonly value: Rational;
  readonly uncertainty?: Rational;
  readonly low?: Rational;
  readonly high?: Rational;
}

/** Which quantity do these exact figures make in a unit? */
export const quantityOf = (exact: ExactQuantity, unit: Unit): Quantity => ({
  value: toNumber(exact.value),
  unit,
  ...(exact.uncertainty ? { uncertainty: toNumber(exact.uncertainty) } : {}),
  ...(exact.low ? { low: toNumber(exact.low) } : {}),
  ...(exact.high ? { high: toNumber(exact.high) } : {}),
  exact,
});

/** Which quantity is a range? Its middle is its value; `low` must not exceed `high`. */
export const rangeOf = (low: Rational, high: Rational, unit: Unit): Quantity =>
  quantityOf({ value: times(plus(low, high), rational(1n, 2n)), low, high }, unit);

/** Can this unit be turned into that one? The same dimension, and for money the same currency. */
const convertible = (from: Unit, to: Unit): boolean =>
  sameDimension(from.dimension, to.dimension) && from.currency === to.currency;

/**
 * What is the quantity in another unit? Exact. `undefined` when the units do not convert (another dimension, another
 * currency) or are not known. Uncertainties convert by the factor alone, also between °C and K.
 */
export const inUnit = (quantity: Quantity, symbol: string): Quantity | undefined => {
  const to = findUnit(symbol);
  if (!to || !convertible(quantity.unit, to)) return undefined;
  const from = quantity.unit;
  const scale = dividedBy(from.factor, to.factor);
  const shift = plus(from.offset ?? rational(0n), negated(to.offset ?? rational(0n)));
  const point = (value: Rational): Rational => plus(times(value, scale), dividedBy(shift, to.factor));
  const { value, uncertainty, low, high } = quantity.exact;
  const exact: ExactQuantity = {
    value: point(value),
    ...(uncertainty ? { uncertainty: times(uncertainty, scale) } : {}),
    ...(low ? { low: point(low) } : {}),
    ...(high ? { high: point(high) } : {}),
  };
  return quantityOf(exact, to);
};

/** Between which ends does the quantity lie, in its own unit? A bare value is both ends; a stated uncertainty spans both. */
export const endsOf = ({ exact }: Quantity): { readonly low: Rational; readonly high: Rational } => {
  if (exact.low && exact.high) return { low: exact.low, high: exact.high };
  const half = exact.uncertainty ?? rational(0n);
  return { low: plus(exact.value, negated(half)), high: plus(exact.value, half) };
};

/** Is any part of the quantity below zero? */
export const reachesBelowZero = (quantity: Quantity): boolean => compare(endsOf(quantity).low, rational(0n)) < 0;

/** How is the dimension of a quantity called in a message? */
export const quantityKind = (quantity: Quantity): string => dimensionName(quantity.unit.dimension);
