import { type Rational, rational } from './rational.ts';

/** A table of counts: two groups (rows), each counted as with or without (columns). */
export type FourfoldTable = readonly [readonly [number, number], readonly [number, number]];

/** The exact probabilities of a table at least as extreme as the one seen, its margins held fixed. */
export interface FisherExact {
  /** That the first group has at least as many in its first column as it has. */
  readonly greater: Rational;
  /** That it has at most as many. */
  readonly less: Rational;
  /** That a table is at most as probable as the one seen. */
  readonly twoSided: Rational;
}

/**
 * How probable is a fourfold table at least as extreme as this one if rows and columns have nothing to do with each other? The
 * hypergeometric sums in whole numbers, so that ties are ties: with row sums m and n, first column sum k, the table with x in its
 * first cell has the weight C(m, x) C(n, k - x) of C(m + n, k). Two-sided by the tables at most as probable as the one seen.
 * R. A. Fisher, The Design of Experiments (1935) chapter II (from memory); the two-sided rule as in the R reference for
 * fisher.test. Throws a RangeError for anything but four whole numbers from 0 to 10 000.
 * Cost: grows with the smaller margin.
 */
export const fisherExact = (table: FourfoldTable): FisherExact => {
  const [[a, b], [c, d]] = checked(table);
  const weights = weightsOf({ first: a + b, second: c + d, column: a + c });
  const seen = weights.find(({ cell }) => cell === a)?.weight ?? 0n;
  const total = weights.reduce((sum, { weight }) => sum + weight, 0n);
  const share = (kept: (table: Weight) => boolean): Rational =>
    rational(
      weights.filter(kept).reduce((sum, { weight }) => sum + weight, 0n),
      total,
    );
  return {
    greater: share(({ cell }) => cell >= a),
    less: share(({ cell }) => cell <= a),
    twoSided: share(({ weight }) => weight <= seen),
  };
};

interface Weight {
  readonly cell: number;
  readonly weight: bigint;
}

interface Margins {
  readonly first: number;
  readonly second: number;
  readonly column: number;
}

/** Every table with these margins, by its first cell; each weight from the one before, C(m, x + 1) = C(m, x) (m - x) / (x + 1). */
const weightsOf = ({ first, second, column }: Margins): readonly Weight[] => {
  const from = Math.max(0, column - second);
  const to = Math.min(first, column);
  const weights: Weight[] = [];
  let weight = binomial(first, from) * binomial(second, column - from);
  for (let cell = from; cell <= to; cell++) {
    weights.push({ cell, weight });
    const out = column - cell;
    weight = (weight * BigInt(first - cell) * BigInt(out)) / (BigInt(cell + 1) * BigInt(second - out + 1));
  }
  return weights;
};

/** In how many ways are `k` of `n` chosen? */
const binomial = (n: number, k: number): bigint => {
  let ways = 1n;
  for (let i = 1; i <= k; i++) ways = (ways * BigInt(n - k + i)) / BigInt(i);
  return ways;
};

const MOST = 10_000;

const checked = (table: FourfoldTable): FourfoldTable => {
  for (const count of table.flat())
    if (!Number.isInteger(count) || count < 0 || count > MOST)
      throw new RangeError(`${count} is not a count from 0 to ${MOST}`);
  return table;
};
