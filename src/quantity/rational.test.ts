import fc from 'fast-check';
import { expect, test } from 'vitest';
import { compare, dividedBy, negated, plus, rational, roundToInteger, times, toNumber } from './rational.ts';

const fraction = fc
  .tuple(fc.bigInt({ min: -(10n ** 12n), max: 10n ** 12n }), fc.bigInt({ min: 1n, max: 10n ** 12n }))
  .map(([numerator, denominator]) => rational(numerator, denominator));

test('rational reduces to lowest terms with a positive denominator and refuses a zero one', () => {
  expect(rational(6n, -4n)).toEqual({ numerator: -3n, denominator: 2n });
  expect(rational(0n, 5n)).toEqual({ numerator: 0n, denominator: 1n });
  expect(() => rational(1n, 0n)).toThrow(RangeError);
});

test('plus, times and their inverses bring every fraction back', () => {
  fc.assert(
    fc.property(fraction, fraction, (a, b) => {
      expect(plus(plus(a, b), negated(b))).toEqual(a);
      if (b.numerator !== 0n) expect(dividedBy(times(a, b), b)).toEqual(a);
      expect(compare(a, b)).toBe(-compare(b, a) + 0);
    }),
  );
});

test('toNumber gives the nearest double: the same that the language reads from the decimal text', () => {
  fc.assert(
    fc.property(fc.double({ noNaN: true, noDefaultInfinity: true, min: -1e15, max: 1e15 }), (value) => {
      const [mantissa = '0', exponent = '0'] = value.toExponential(20).split('e');
      const digits = BigInt(mantissa.replace('.', ''));
      const power = Number(exponent) - 20;
      const exact = power >= 0 ? rational(digits * 10n ** BigInt(power)) : rational(digits, 10n ** BigInt(-power));
      expect(toNumber(exact)).toBe(value === 0 ? 0 : value);
    }),
  );
});

test('roundToInteger goes to the nearest, halves away from zero', () => {
  expect([rational(5n, 2n), rational(-5n, 2n), rational(7n, 3n), rational(-7n, 3n)].map(roundToInteger)).toEqual([
    3n,
    -3n,
    2n,
    -2n,
  ]);
});
