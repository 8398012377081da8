/** An exact fraction in lowest terms; the denominator is positive. */
export interface Rational {
  readonly numerator: bigint;
  readonly denominator: bigint;
}

/** Which fraction is `numerator / denominator`? The denominator must not be zero (`RangeError`). */
export const rational = (numerator: bigint, denominator = 1n): Rational => {
  if (denominator === 0n) throw new RangeError('a fraction has no zero denominator');
  const sign = denominator < 0n ? -1n : 1n;
  const divisor = sign * greatestCommonDivisor(numerator < 0n ? -numerator : numerator, sign * denominator);
  return { numerator: numerator / divisor, denominator: denominator / divisor };
};

const greatestCommonDivisor = (a: bigint, b: bigint): bigint => {
  let [larger, smaller] = [a, b];
  while (smaller !== 0n) [larger, smaller] = [smaller, larger % smaller];
  return larger === 0n ? 1n : larger;
};

/** What is the sum of two fractions, exactly? */
export const plus = (a: Rational, b: Rational): Rational =>
  rational(a.numerator * b.denominator + b.numerator * a.denominator, a.denominator * b.denominator);

/** What is the product of two fractions, exactly? */
export const times = (a: Rational, b: Rational): Rational =>
  rational(a.numerator * b.numerator, a.denominator * b.denominator);

/** What is `a` divided by `b`, exactly? `b` must not be zero (`RangeError`). */
export const dividedBy = (a: Rational, b: Rational): Rational =>
  rational(a.numerator * b.denominator, a.denominator * b.numerator);

/** What is the fraction with its sign turned? */
export const negated = (a: Rational): Rational => ({ numerator: -a.numerator, denominator: a.denominator });

/** Which of two fractions is larger? Negative, zero or positive, as for sorting. */
export const compare = (a: Rational, b: Rational): number => {
  const difference = a.numerator * b.denominator - b.numerator * a.denominator;
  return difference < 0n ? -1 : difference > 0n ? 1 : 0;
};

/** Which double lies nearest to the fraction? Exact up to the last bit for any size, by long division to 20 digits. */
export const toNumber = ({ numerator, denominator }: Rational): number => {
  const negative = numerator < 0n;
  const size = negative ? -numerator : numerator;
  const shift = Math.max(0, 25 + String(denominator).length - String(size).length);
  const digits = (size * 10n ** BigInt(shift)) / denominator;
  return Number(`${negative ? '-' : ''}${digits}e-${shift}`);
};

/** Which integer lies nearest to the fraction? Halves go away from zero. */
export const roundToInteger = ({ numerator, denominator }: Rational): bigint => {
  const half = numerator < 0n ? -denominator : denominator;
  return (2n * numerator + half) / (2n * denominator);
};
