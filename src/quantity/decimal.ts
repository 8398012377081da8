import { type Rational, rational } from './rational.ts';

/** A number as it was written, exactly, or why it is none. */
export type DecimalReading =
  | { readonly value: Rational }
  | { readonly value?: undefined; readonly message: string; readonly remedy: string };

/** Digits, groups of three set apart by blanks, a decimal point or comma, an exponent. As a source for larger patterns. */
export const DECIMAL_PATTERN = String.raw`[-+\u2212]?(?=[.,]?\d)(?:\d{1,3}(?:[ \u00a0\u2009\u202f]\d{3})+(?!\d)|\d+)?(?:[.,]\d+)?(?:[eE][-+]?\d{1,2})?`;

const PARTS = /^([-+\u2212]?)(\d*)(?:([.,])(\d+))?(?:[eE]([-+]?\d{1,2}))?$/;

/**
 * Which number does a text write? Exactly, as a fraction. A decimal comma is read like a point; with exactly three digits
 * behind it (`1,234`) it could as well part thousands, and is refused. Blanks may part groups of three (ISO 80000-1).
 */
export const readDecimal = (text: string): DecimalReading => {
  const match = PARTS.exec(text.replaceAll(/[ \u00a0\u2009\u202f]/g, ''));
  const [, sign = '', whole = '', mark = '', fraction = '', exponent = '0'] = match ?? [];
  if (!match || whole + fraction === '')
    return { message: 'this is no number', remedy: 'Write it like 3.1, -5 or 1e3.' };
  if (mark === ',' && fraction.length === 3 && whole !== '0' && whole !== '')
    return {
      message: `"${text.trim()}" may mean a decimal or a thousand`,
      remedy: `Write ${whole}.${fraction} or ${whole}${fraction}.`,
    };
  const power = Number(exponent) - fraction.length;
  const digits = BigInt(whole + fraction) * (sign === '-' || sign === '\u2212' ? -1n : 1n);
  const value = power >= 0 ? rational(digits * 10n ** BigInt(power)) : rational(digits, 10n ** BigInt(-power));
  return { value };
};
