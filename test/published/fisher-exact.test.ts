/**
 * Source: R. A. Fisher, The Design of Experiments (1935) chapter II, the tea tasting; its table [[3, 1], [1, 3]] and one-sided
 * p 0.2429 as in Agresti, Categorical Data Analysis (2002) and the reference of R's fisher.test (read there); two-sided 0.4857 and
 * the bench tables computed for this project by hand from the hypergeometric sums: 1/70 = 1/C(8, 4), 1/20 = 1/C(6, 3),
 * 1/252 = 1/C(10, 5), 1/6 = 1/C(4, 2). Printed to four decimals; the fractions are exact.
 */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { isClose } from '#quantity/close';
import { type FourfoldTable, fisherExact } from '#quantity/fisher-exact';
import { rational, toNumber } from '#quantity/rational';

const PRINTED = { abs: 0.5001e-4 };

const rows: readonly (readonly [FourfoldTable, oneSided: number, twoSided: number])[] = [
  [
    [
      [3, 1],
      [1, 3],
    ],
    0.2429,
    0.4857,
  ],
  [
    [
      [4, 0],
      [0, 4],
    ],
    0.0143,
    0.0286,
  ],
  [
    [
      [3, 0],
      [0, 3],
    ],
    0.05,
    0.1,
  ],
  [
    [
      [5, 0],
      [0, 5],
    ],
    0.004,
    0.0079,
  ],
  [
    [
      [2, 0],
      [0, 2],
    ],
    0.1667,
    0.3333,
  ],
];

test.each(rows)('%j has the printed one-sided and two-sided p', (table, oneSided, twoSided) => {
  const { greater, twoSided: both } = fisherExact(table);
  expect(toNumber(greater)).toSatisfy((p: number) => isClose(p, oneSided, PRINTED));
  expect(toNumber(both)).toSatisfy((p: number) => isClose(p, twoSided, PRINTED));
});

test('four against four is one in seventy, exactly, and twice that on both sides', () => {
  const { greater, less, twoSided } = fisherExact([
    [4, 0],
    [0, 4],
  ]);
  expect(greater).toEqual(rational(1n, 70n));
  expect(twoSided).toEqual(rational(1n, 35n));
  expect(less).toEqual(rational(1n));
});

describe('by the definition', () => {
  const count = fc.integer({ min: 0, max: 6 });
  const tables = fc.tuple(count, count, count, count).filter((cells) => cells.some((cell) => cell > 0));

  /** Slow by definition: every way to mark `k` of the `m + n` things is equally likely. */
  const byCounting = ([a, b, c, d]: readonly [number, number, number, number]) => {
    const things = a + b + c + d;
    const tally = new Map<number, number>();
    for (let marks = 0; marks < 2 ** things; marks++) {
      const bits = marks.toString(2).padStart(things, '0');
      if (bits.replaceAll('0', '').length !== a + c) continue;
      const cell = bits.slice(0, a + b).replaceAll('0', '').length;
      tally.set(cell, (tally.get(cell) ?? 0) + 1);
    }
    const total = [...tally.values()].reduce((sum, ways) => sum + ways, 0);
    const share = (kept: (cell: number, ways: number) => boolean) =>
      rational(
        BigInt([...tally].filter(([cell, ways]) => kept(cell, ways)).reduce((sum, [, ways]) => sum + ways, 0)),
        BigInt(total),
      );
    const seen = tally.get(a) ?? 0;
    return {
      greater: share((cell) => cell >= a),
      less: share((cell) => cell <= a),
      twoSided: share((_, ways) => ways <= seen),
    };
  };

  test('the sums equal a count of all ways to mark the things', () => {
    fc.assert(
      fc.property(
        tables.filter(([a, b, c, d]) => a + b + c + d <= 12),
        ([a, b, c, d]) => {
          expect(
            fisherExact([
              [a, b],
              [c, d],
            ]),
          ).toEqual(byCounting([a, b, c, d]));
        },
      ),
      { numRuns: 60, seed: 5 },
    );
  });

  test('turning rows into columns, or both groups round, leaves the two-sided p', () => {
    fc.assert(
      fc.property(tables, ([a, b, c, d]) => {
        const { twoSided, greater } = fisherExact([
          [a, b],
          [c, d],
        ]);
        expect(
          fisherExact([
            [a, c],
            [b, d],
          ]).twoSided,
        ).toEqual(twoSided);
        expect(
          fisherExact([
            [c, d],
            [a, b],
          ]).twoSided,
        ).toEqual(twoSided);
        expect(
          fisherExact([
            [c, d],
            [a, b],
          ]).less,
        ).toEqual(greater);
      }),
      { numRuns: 200, seed: 6 },
    );
  });
});

test.each([
  [
    [
      [1.5, 0],
      [0, 1],
    ],
  ],
  [
    [
      [-1, 0],
      [0, 1],
    ],
  ],
  [
    [
      [1, 0],
      [0, 10_001],
    ],
  ],
])('%j is no table of counts', (table) => {
  expect(() => fisherExact(table as unknown as FourfoldTable)).toThrow(RangeError);
});
