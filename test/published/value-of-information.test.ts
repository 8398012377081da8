/**
 * Source: value of information as worked out in the project's own reference of bench facts, section 5.4 [computed there, not
 * printed in a publication; formulas after Brennan et al. 2007, Medical Decision Making 27:448, and Wilson 2015,
 * PharmacoEconomics 33:105, from memory]. Toy: option A is worth 0, option B x + y, x is −3 or +4 and y −2 or +2, equal odds:
 * best now 0.5, EVPI 1.5, EVPPI of x 1.5, of y 0.75; exact, no tolerance. Two options whose difference is normal with mean 1
 * and standard deviation 1: EVPI 0.083315, of mean 0 0.39894, of mean 500 and deviation 1000 197.80.
 */
import { expect, test } from 'vitest';
import { isClose } from '#quantity/close';
import { type Rational, rational, toNumber } from '#quantity/rational';
import { informationValue, type Outcome } from '#verdict/questions/information-value';

const half = (halves: number): Rational => rational(BigInt(halves), 2n);

const toy: readonly Outcome[] = [-3, 4].flatMap((x) =>
  [-2, 2].map((y) => ({
    weight: rational(1n),
    answers: { x: String(x), y: String(y) },
    worth: [rational(0n), rational(BigInt(x + y))],
  })),
);

test('bench facts 5.4, toy: best now 0.5; perfect information is worth 1.5, x alone 1.5, y alone 0.75', () => {
  expect(informationValue(toy, ['x', 'y'])).toEqual({ now: half(1), informed: half(4) });
  expect(informationValue(toy, ['x'])).toEqual({ now: half(1), informed: half(4) });
  expect(informationValue(toy, ['y'])).toEqual({ now: half(1), informed: rational(5n, 4n) });
  expect(informationValue(toy, [])).toEqual({ now: half(1), informed: half(1) });
});

/** The normal density on a grid of a hundredth of its deviation, ten deviations to each side, weights to twelve decimals. */
const normal = (mean: number, deviation: number): readonly Outcome[] =>
  Array.from({ length: 2001 }, (_, index) => (index - 1000) / 100).map((z) => ({
    weight: rational(BigInt(Math.round(1e12 * Math.exp((-z * z) / 2)))),
    answers: { difference: String(z) },
    worth: [rational(0n), rational(BigInt(Math.round((mean + deviation * z) * 100)), 100n)],
  }));

/**
 * A sum over an even grid of step h misses the mean of a function with one kink on the grid by h² / 12 times the density at
 * the kink times the deviation: at most 3.4e-6 deviations here. The printed figures add half a unit of their last place.
 */
test.each([
  { mean: 1, deviation: 1, printed: 0.083315, abs: 3.4e-6 + 5e-7 },
  { mean: 0, deviation: 1, printed: 0.39894, abs: 3.4e-6 + 5e-6 },
  { mean: 500, deviation: 1000, printed: 197.8, abs: 3.4e-3 + 5e-3 },
])('bench facts 5.4, two options, difference normal($mean, $deviation²): EVPI $printed', (row) => {
  const { mean, deviation, printed, abs } = row;
  const { now, informed } = informationValue(normal(mean, deviation), ['difference']);
  expect(isClose(toNumber(now), mean, { abs: 1e-9 * deviation })).toBe(true);
  expect(isClose(toNumber(informed) - toNumber(now), printed, { abs })).toBe(true);
});
