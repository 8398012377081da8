import { expect, test } from 'vitest';
import type { Swap } from './schema/assessment.ts';
import { standingSwaps } from './standing-swaps.ts';

const fitOf = (more: Partial<Swap>): Swap => ({ specimen: 'a', part: 'battery', ...more });
const ids = (swaps: Readonly<Record<string, Swap>>) => standingSwaps(swaps).map(([id]) => id);

test('standingSwaps gives the fits in the order of their runs, those without a number last', () => {
  expect(ids({ c: fitOf({}), b: fitOf({ run: 10 }), a: fitOf({ run: 9 }) })).toEqual(['a', 'b', 'c']);
  const early = fitOf({ on: '2026-10-01T09:00:00+02:00' });
  const late = fitOf({ on: '2026-10-01T08:30:00+01:00' });
  expect(ids({ x: fitOf({}), late, early })).toEqual(['early', 'late', 'x']);
});

test('standingSwaps lets a correction stand at the place of what it corrects', () => {
  const swaps = {
    first: fitOf({ run: 1, effect: 'E5' }),
    second: fitOf({ run: 2 }),
    mended: fitOf({ corrects: 'first', effect: 'E4' }),
    again: fitOf({ corrects: 'mended', effect: 'E3' }),
  };
  expect(standingSwaps(swaps)).toEqual([
    ['again', { ...swaps.again, run: 1 }],
    ['second', swaps.second],
  ]);
});

test('standingSwaps lets the later of two corrections stand, whichever is listed first', () => {
  const first = fitOf({ run: 1 });
  const early = fitOf({ corrects: 'first', on: '2026-10-01T09:00:00+02:00' });
  const late = fitOf({ corrects: 'first', on: '2026-10-01T08:30:00+01:00' });
  expect(ids({ first, late, early })).toEqual(['late']);
  expect(ids({ first, early, late })).toEqual(['late']);
  expect(ids({ first, late, unknown: fitOf({ corrects: 'first' }) })).toEqual(['late']);
  expect(ids({ first, one: fitOf({ corrects: 'first' }), other: fitOf({ corrects: 'first' }) })).toEqual(['other']);
});

test('standingSwaps leaves a withdrawn fit out, and keeps what corrects nothing that is there', () => {
  expect(ids({ a: fitOf({ run: 1 }), b: fitOf({ corrects: 'a', withdrawn: true }) })).toEqual([]);
  expect(ids({ b: fitOf({ corrects: 'gone' }) })).toEqual(['b']);
});

test('standingSwaps ends where corrections go in a circle', () => {
  expect(ids({ a: fitOf({ corrects: 'b' }), b: fitOf({ corrects: 'a' }) })).toEqual([]);
  expect(standingSwaps(undefined)).toEqual([]);
});
