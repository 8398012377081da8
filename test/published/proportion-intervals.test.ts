/**
 * Source: Newcombe, Statistics in Medicine 17 (1998) 857-872 (rows 81/263, 15/148, 0/20, 1/29; the limits as remembered,
 * recomputed independently); NIST/SEMATECH e-Handbook of Statistical Methods, 7.2.4.1 (Wilson); Brown, Cai and DasGupta,
 * Statistical Science 16 (2001) 101-133 (Jeffreys); Jovanovic and Levy 1997 (no event seen). Bench rows: computed for this
 * project. Printed to four decimals, so that half a unit of the last place is the tolerance.
 */
import { describe, expect, test } from 'vitest';
import { isClose } from '#quantity/close';
import { clopperPearson, jeffreys, noEventLimit, type Proportion, wilson } from '#quantity/proportion';

const PRINTED = 0.5001e-4;
const Z95 = 1.959963984540054;

type Ends = readonly [number, number];
const rows: readonly (readonly [count: number, tries: number, wilson: Ends, exact: Ends, jeffreys: Ends])[] = [
  [81, 263, [0.2553, 0.3662], [0.2527, 0.3676], [0.2545, 0.3656]],
  [15, 148, [0.0624, 0.1605], [0.0578, 0.1617], [0.0604, 0.1576]],
  [0, 20, [0, 0.1611], [0, 0.1684], [0, 0.1166]],
  [1, 29, [0.0061, 0.1718], [0.0009, 0.1776], [0.0037, 0.1501]],
  [0, 3, [0, 0.5615], [0, 0.7076], [0, 0.5356]],
  [0, 5, [0, 0.4345], [0, 0.5218], [0, 0.3794]],
  [0, 10, [0, 0.2775], [0, 0.3085], [0, 0.2172]],
  [1, 10, [0.0179, 0.4042], [0.0025, 0.445], [0.011, 0.3813]],
  [3, 20, [0.0524, 0.3604], [0.0321, 0.3789], [0.0441, 0.3486]],
  [2, 2, [0.3424, 1], [0.1581, 1], [0.3332, 1]],
  [4, 4, [0.5101, 1], [0.3976, 1], [0.5552, 1]],
];

const isPrinted = ({ low, high }: Proportion, [printedLow, printedHigh]: Ends): boolean =>
  isClose(low, printedLow, { abs: PRINTED }) && isClose(high, printedHigh, { abs: PRINTED });

describe('95 % intervals of a share equal the printed table', () => {
  test.each(rows)('%i of %i', (...row) => {
    const [count, tries, wilsonEnds, exactEnds, jeffreysEnds] = row;
    const share = { count, tries, confidence: 0.95 };
    expect([wilson(count, tries, Z95), wilsonEnds]).toSatisfy((pair: [Proportion, Ends]) => isPrinted(...pair));
    expect([clopperPearson(share), exactEnds]).toSatisfy((pair: [Proportion, Ends]) => isPrinted(...pair));
    expect([jeffreys(share), jeffreysEnds]).toSatisfy((pair: [Proportion, Ends]) => isPrinted(...pair));
  });

  test('Clopper-Pearson for 3 of 20, to the eleven decimals on which two statistical libraries agree', () => {
    const { low, high } = clopperPearson({ count: 3, tries: 20, confidence: 0.95 });
    expect(low).toSatisfy((value: number) => isClose(value, 0.03207093718546, { abs: 1e-11 }));
    expect(high).toSatisfy((value: number) => isClose(value, 0.37892682654531, { abs: 1e-11 }));
  });
});

describe('upper 95 % limit, one-sided, where no event was seen', () => {
  const printed: readonly (readonly [tries: number, limit: number])[] = [
    [3, 0.6316],
    [5, 0.4507],
    [10, 0.2589],
    [20, 0.1391],
    [30, 0.095],
    [100, 0.0295],
    [300, 0.0099],
  ];
  test.each(printed)('none in %i', (tries, limit) => {
    expect(noEventLimit(tries, 0.05)).toSatisfy((value: number) => isClose(value, limit, { abs: PRINTED }));
  });

  test('the rule of three comes within 6 % of it from 30 tries on and lies far above it at 3', () => {
    for (const tries of [30, 100, 300])
      expect(noEventLimit(tries, 0.05)).toSatisfy((value: number) => isClose(value, 3 / tries, { rel: 0.06 }));
    expect(noEventLimit(3, 0.05)).toBeLessThan(0.64);
  });
});

test('an exact interval holds by the binomial sums that define it', () => {
  const { low, high } = clopperPearson({ count: 3, tries: 20, confidence: 0.95 });
  const atLeast = (p: number, from: number): number => {
    let sum = 0;
    let ways = 1;
    for (let k = 0; k <= 20; k++) {
      if (k >= from) sum += ways * p ** k * (1 - p) ** (20 - k);
      ways = (ways * (20 - k)) / (k + 1);
    }
    return sum;
  };
  expect(atLeast(low, 3)).toSatisfy((value: number) => isClose(value, 0.025, { abs: 1e-12 }));
  expect(1 - atLeast(high, 4)).toSatisfy((value: number) => isClose(value, 0.025, { abs: 1e-12 }));
});

test.each([
  { count: 3, tries: 2, confidence: 0.95 },
  { count: 0.5, tries: 2, confidence: 0.95 },
  { count: 0, tries: 0, confidence: 0.95 },
  { count: 1, tries: 2, confidence: 1 },
])('$count of $tries at confidence $confidence is refused', (share) => {
  expect(() => clopperPearson(share)).toThrow(RangeError);
});
