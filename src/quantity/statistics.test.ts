import fc from 'fast-check';
import { expect, test } from 'vitest';
import { isClose } from './close.ts';
import { meanOf, medianOf, partByIqr, quantileOf, quartilesOf, standardDeviationOf } from './statistics.ts';

const figures = fc.array(fc.double({ min: -1e6, max: 1e6, noNaN: true }), { minLength: 2, maxLength: 30 });

test('meanOf and standardDeviationOf keep their digits on figures that differ only in the last ones', () => {
  // The shape of a well known hard case: three figures of eight digits with standard deviation exactly 1.
  const hard = [10_000_001, 10_000_003, 10_000_002];
  expect([meanOf(hard), standardDeviationOf(hard)]).toEqual([10_000_002, 1]);
  expect(standardDeviationOf([3])).toBe(undefined);
});

test('quantileOf interpolates between order statistics (definition 7)', () => {
  expect(quartilesOf([1, 2, 3, 4])).toEqual({ lower: 1.75, median: 2.5, upper: 3.25 });
  expect([medianOf([5, 1, 9]), medianOf([]), quantileOf([7], 0.9)]).toEqual([5, undefined, 7]);
});

test('partByIqr sets aside what lies over 1.5 interquartile ranges outside, and nothing of fewer than four', () => {
  expect(partByIqr([10, 12, 11, 13, 60])).toEqual({ kept: [10, 12, 11, 13], set: [60] });
  expect(partByIqr([1, 2, 60])).toEqual({ kept: [1, 2, 60], set: [] });
});

test('statistics do not hang on the order of the figures and shift with them', () => {
  fc.assert(
    fc.property(figures, (values) => {
      const turned = [...values].reverse();
      expect(isClose(meanOf(turned), meanOf(values), { abs: 1e-6 })).toBe(true);
      expect(medianOf(turned)).toBe(medianOf(values));
      const shifted = standardDeviationOf(values.map((value) => value + 1000)) ?? Number.NaN;
      expect(isClose(shifted, standardDeviationOf(values) ?? Number.NaN, { abs: 1e-5 })).toBe(true);
    }),
  );
});
