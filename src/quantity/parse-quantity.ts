import { DECIMAL_PATTERN, readDecimal } from './decimal.ts';
import { type Quantity, quantityOf, rangeOf } from './quantity.ts';
import { compare, type Rational, rational, times } from './rational.ts';
import { findUnit, type Unit } from './unit.ts';

/** The quantity a text writes, or what is wrong with it and what to do. */
export type QuantityReading =
  | { readonly quantity: Quantity }
  | { readonly quantity?: undefined; readonly message: string; readonly remedy: string };

const number = `(${DECIMAL_PATTERN})`;
const unit = String.raw`([^\d\s.,()±+−-][^()±]*?)?`;
const blank = String.raw`\s*`;
const plusMinus = String.raw`(?:±|\+/-|\+-)`;

const SINGLE = new RegExp(`^${number}${blank}${unit}$`);
const SPREAD = new RegExp(`^${number}${blank}${unit}${blank}${plusMinus}${blank}${number}${blank}${unit}$`);
const BRACKETED = new RegExp(String.raw`^\(\s*${number}\s*${plusMinus}\s*${number}\s*\)\s*${unit}$`);
const RANGE = new RegExp(`^${number}${blank}${unit}${blank}(?:to|–|—|…|\\.\\.)${blank}${number}${blank}${unit}$`);
const HYPHEN = new RegExp(`^${number}${blank}-${blank}${number}${blank}${unit}$`);
const CURRENCY_FIRST = /^([A-Z]{3}|[€£])\s*(?=\d)/;
const COMPARED = /^(?:[<>~≈≤≥]|about|approx|ca\.?\s|max|min\.|up to)/i;
const LONGEST = 120;

/**
 * Which quantity does a text write? `17 Wh`, `3.1 ± 0.1 g`, `(3.1 ± 0.1) g`, `12 g +/- 5 %`, `2 to 3 min`, `2–3 min`, `649 EUR`,
 * `€ 649`. Numbers are read exactly (see `readDecimal` for the decimal comma). A unit is always needed.
 */
export const parseQuantity = (text: string): QuantityReading => {
  if (text.length > LONGEST) return fault('the quantity is too long', `Write at most ${LONGEST} characters.`);
  const plain = currencyLast(text.trim());
  if (COMPARED.test(plain)) return fault('a bound or estimate is no quantity', 'Write a range, such as "2 to 3 min".');
  const bracketed = BRACKETED.exec(plain);
  if (bracketed) return readSpread(bracketed[1], bracketed[2], bracketed[3], bracketed[3]);
  const spread = SPREAD.exec(plain);
  if (spread) return readSpread(spread[1], spread[3], spread[2] ?? spread[4], spread[4] ?? spread[2]);
  const range = RANGE.exec(plain);
  if (range) return readRange(range[1], range[3], [range[2] ?? range[4], range[4] ?? range[2]]);
  const hyphen = HYPHEN.exec(plain);
  if (hyphen) return readRange(hyphen[1], hyphen[2], [hyphen[3], hyphen[3]]);
  const single = SINGLE.exec(plain);
  if (single) return readSingle(single[1], single[2]);
  return fault('this is no quantity', 'Write a number and a unit, such as "3.1 ± 0.1 g", "17 Wh" or "2 to 3 min".');
};

const fault = (message: string, remedy: string): QuantityReading => ({ message, remedy });

const currencyLast = (text: string): string => {
  const match = CURRENCY_FIRST.exec(text);
  return match ? `${text.slice(match[0].length)} ${match[1]}` : text;
};

const readUnit = (
  symbol: string | undefined,
): { unit: Unit } | { unit?: undefined; message: string; remedy: string } => {
  if (symbol === undefined || symbol.trim() === '')
    return { message: 'the unit is missing', remedy: 'Write the unit after the number, such as "3.1 g".' };
  const found = findUnit(symbol);
  if (found) return { unit: found };
  if (/\s\d/.test(symbol))
    return { message: 'a quantity has one number and one unit', remedy: 'Write it in one unit, such as "450 s".' };
  const remedy =
    symbol.trim() === '$' ? 'Write USD.' : 'Write a unit such as g, mm, s, min, °C, %, N m, mL, Wh, mAh, V or EUR.';
  return { message: `"${symbol.trim().slice(0, 40)}" is no unit known here`, remedy };
};

const readSingle = (value: string | undefined, symbol: string | undefined): QuantityReading => {
  const exact = readDecimal(value ?? '');
  if (!exact.value) return exact;
  const found = readUnit(symbol);
  return found.unit ? { quantity: quantityOf({ value: exact.value }, found.unit) } : found;
};

const readSpread = (...[value, spread, symbol, spreadSymbol]: readonly (string | undefined)[]): QuantityReading => {
  const exact = readDecimal(value ?? '');
  if (!exact.value) return exact;
  const half = readDecimal(spread ?? '');
  if (!half.value) return half;
  const found = readUnit(symbol);
  if (!found.unit) return found;
  const uncertainty = halfWidth(exact.value, half.value, {
    symbol: symbol?.trim(),
    spreadSymbol: spreadSymbol?.trim(),
  });
  if (!uncertainty)
    return fault('value and uncertainty have different units', 'Write both in one unit, or the uncertainty in %.');
  if (compare(uncertainty, rational(0n)) < 0)
    return fault('an uncertainty is not negative', 'Write it after ± without a sign.');
  return { quantity: quantityOf({ value: exact.value, uncertainty }, found.unit) };
};

/** The half-width in the value's unit: as written, or as a share of the value when it is given in %. */
const halfWidth = (
  value: Rational,
  half: Rational,
  { symbol, spreadSymbol }: { readonly symbol: string | undefined; readonly spreadSymbol: string | undefined },
): Rational | undefined => {
  if (spreadSymbol === symbol) return half;
  if (spreadSymbol !== '%') return undefined;
  const size = value.numerator < 0n ? times(value, rational(-1n)) : value;
  return times(times(size, half), rational(1n, 100n));
};

const readRange = (
  from: string | undefined,
  to: string | undefined,
  [symbol, second]: readonly [string | undefined, string | undefined],
): QuantityReading => {
  const low = readDecimal(from ?? '');
  if (!low.value) return low;
  const high = readDecimal(to ?? '');
  if (!high.value) return high;
  const found = readUnit(symbol);
  if (!found.unit) return found;
  if (symbol?.trim() !== second?.trim())
    return fault('the ends of the range have different units', 'Write both ends in one unit.');
  if (compare(low.value, high.value) > 0) return fault('the range runs backwards', 'Write the smaller figure first.');
  return { quantity: rangeOf(low.value, high.value, found.unit) };
};
