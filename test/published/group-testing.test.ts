/**
 * Source: Dorfman, The detection of defective members of large populations, Annals of Mathematical Statistics 14(4) (1943) 436-440,
 * the table of best group sizes and costs in per cent [printed values from memory; those of one decimal computed from the formula];
 * halving with inference for small batches [computed from its recursion; the crossing at (3 - sqrt 5)/2 is Ungar's, 1960, memory];
 * Hwang, A method for detecting all defective members in a population by group testing, Journal of the American Statistical
 * Association 67 (1972) 605-608 [scheme and bound from memory, worst cases computed by running it on every set of defects].
 */
import { describe, expect, test } from 'vitest';
import { isClose } from '#quantity/close';
import { dorfmanGroup, dorfmanRunsPerPart } from '#swaps/pooling/dorfman';
import { halvingRuns } from '#swaps/pooling/halving';
import { hwangGroup, hwangWorstRuns } from '#swaps/pooling/hwang';

describe('Dorfman, table of best groups', () => {
  // chance in per cent, best size, cost in per cent to one decimal [computed], cost as printed [memory]
  const rows = [
    [1, 11, 19.6, 20],
    [2, 8, 27.4, 27],
    [3, 6, 33.4, 33],
    [4, 6, 38.4, 38],
    [5, 5, 42.6, 43],
    [6, 5, 46.6, 47],
    [7, 4, 50.2, 50],
    [8, 4, 53.4, 53],
    [9, 4, 56.4, 56],
    [10, 4, 59.4, 59],
    [12, 4, 65.0, 65],
    [13, 3, 67.5, 67],
    [15, 3, 71.9, 72],
    [20, 3, 82.1, 82],
    [25, 3, 91.1, 91],
    [30, 3, 99.0, 99],
  ] as const;
  test.each(rows)('at %d %% groups of %d cost %d %%', (...row) => {
    const [percent, size, cost, printed] = row;
    const found = dorfmanGroup(percent / 100);
    expect(found.size).toBe(size);
    expect(isClose(100 * found.runsPerPart, cost, { abs: 0.05 + 1e-9 })).toBe(true);
    // At 13 % the formula gives 67.48: the print rounds to the whole per cent.
    expect(isClose(100 * found.runsPerPart, printed, { abs: 0.5 + 1e-9 })).toBe(true);
  });
  test('the size printed for 7 %, 5, costs the same after rounding', () => {
    expect(Math.round(100 * dorfmanRunsPerPart(0.07, 5))).toBe(Math.round(100 * dorfmanGroup(0.07).runsPerPart));
  });
  test('one by one from 1 - 3^(-1/3) on, groups of 3 just below', () => {
    expect(dorfmanGroup(0.3067).size).toBe(1);
    expect(dorfmanGroup(0.3065).size).toBe(3);
  });
  test('check values at 1, 5 and 20 %', () => {
    expect(isClose(dorfmanGroup(0.01).runsPerPart, 0.1956, { abs: 0.00005 })).toBe(true);
    expect(isClose(dorfmanGroup(0.05).runsPerPart, 0.4262, { abs: 0.00005 })).toBe(true);
    expect(isClose(dorfmanGroup(0.2).runsPerPart, 0.8213, { abs: 0.00005 })).toBe(true);
  });
});

describe('halving with inference, expected runs of small batches', () => {
  const sizes = [3, 4, 5, 6, 8] as const;
  const rows = [
    [0.05, [1.34, 1.58, 1.81, 2.09, 2.68]],
    [0.1, [1.66, 2.11, 2.55, 3.06, 4.14]],
    [0.2, [2.25, 3.07, 3.84, 4.72, 6.56]],
    [0.3, [2.77, 3.89, 4.92, 6.07, 8.48]],
    [0.382, [3.15, 4.47, 5.67, 7.0, 9.78]],
  ] as const;
  test.each(rows)('at a chance of %d', (chance, expected) => {
    const near = sizes.map((parts, index) =>
      isClose(halvingRuns(parts, chance), expected[index] ?? 0, { abs: 0.0051 }),
    );
    expect(near).toEqual([true, true, true, true, true]);
  });
  test('one group of Dorfman of 4, 5 and 8 parts costs more in every row', () => {
    const printed = [
      [0.05, [1.74, 2.13, 3.69]],
      [0.1, [2.38, 3.05, 5.56]],
      [0.2, [3.36, 4.36, 7.66]],
      [0.3, [4.04, 5.16, 8.54]],
    ] as const;
    for (const [chance, costs] of printed)
      for (const [index, size] of [4, 5, 8].entries()) {
        const runs = size * dorfmanRunsPerPart(chance, size);
        expect(isClose(runs, costs[index] ?? 0, { abs: 0.0051 })).toBe(true);
        expect(halvingRuns(size, chance)).toBeLessThan(runs);
      }
  });
  test('two parts together cost exactly two runs at (3 - sqrt 5)/2', () => {
    expect(isClose(halvingRuns(2, (3 - Math.sqrt(5)) / 2), 2, { abs: 1e-12 })).toBe(true);
  });
});

/** The scheme walked on one set of defects, written down apart from the recursion under test. */
const walked = (parts: number, bad: number, defects: ReadonlySet<number>): { runs: number; found: number[] } => {
  let left = Array.from({ length: parts }, (_, index) => index);
  let most = bad;
  let runs = 0;
  const found: number[] = [];
  const fails = (group: readonly number[]): boolean => {
    runs++;
    return group.some((part) => defects.has(part));
  };
  while (left.length > 0 && most > 0) {
    let group = left.slice(0, hwangGroup(left.length, most));
    const rest = left.slice(group.length);
    if (!fails(group)) {
      left = rest;
      continue;
    }
    const unseen: number[] = [];
    while (group.length > 1) {
      const half = group.slice(0, group.length / 2);
      const other = group.slice(group.length / 2);
      if (fails(half)) {
        unseen.push(...other);
        group = half;
      } else group = other;
    }
    found.push(...group);
    left = [...unseen, ...rest];
    most--;
  }
  return { runs, found };
};

const setsUpTo = (parts: number, most: number): ReadonlySet<number>[] => {
  const sets: number[][] = [[]];
  for (let part = 0; part < parts; part++)
    for (const set of [...sets]) if (set.length < most) sets.push([...set, part]);
  return sets.map((set) => new Set(set));
};

describe('Hwang, worst case over all sets of defects', () => {
  const rows = [
    [8, 1, 4, 3],
    [8, 2, 6, 5],
    [10, 1, 4, 4],
    [10, 2, 7, 6],
    [12, 2, 7, 7],
    [12, 3, 10, 8],
    [16, 1, 5, 4],
    [16, 2, 8, 7],
  ] as const;
  test.each(rows)('%d parts, at most %d bad: %d runs', (...row) => {
    const [parts, bad, worst, bound] = row;
    expect(hwangWorstRuns(parts, bad)).toBe(worst);
    let high = 0;
    for (const defects of setsUpTo(parts, bad)) {
      const { runs, found } = walked(parts, bad, defects);
      expect(found.toSorted((a, b) => a - b)).toEqual([...defects].toSorted((a, b) => a - b));
      high = Math.max(high, runs);
    }
    expect(high).toBe(worst);
    expect(worst).toBeGreaterThanOrEqual(bound);
  });
  test.each(rows.filter(([, bad]) => bad >= 2))('%d parts, %d bad: (a + 2) d + p - 1', (parts, bad, worst) => {
    const alpha = Math.floor(Math.log2((parts - bad + 1) / bad));
    const groups = Math.floor((parts - bad + 1 - 2 ** alpha * bad) / 2 ** alpha);
    expect(worst).toBe((alpha + 2) * bad + groups - 1);
  });
});
