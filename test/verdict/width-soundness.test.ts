import { describe, expect, it } from 'vitest';
import type { IndexBasis } from '#verdict/index-bases';
import { SeededRandom } from '../faults/seeded-random.ts';
import { basesOf } from '../records/small-record.ts';
import { share } from '../share.ts';
import { drawRecord } from './drawn-record.ts';
import { escaped } from './escaped.ts';

/** Drawn records for each of the five readings, each with two bases. */
const CASES = share(50, 2000);
const READINGS = [
  {},
  { 'previous-priority-part': 'common-order' },
  { 'bare-hands': 'change' },
  { 'duplicated-part': 'lowest-instance' },
  { 'session-order': 'all-actions' },
] as const;

const drawnBy = (seed: number): (() => number) => {
  const stream = new SeededRandom(seed);
  return () => stream.below(2 ** 20) / 2 ** 20;
};

describe('the width of the index', () => {
  it.each(READINGS)(`holds every answer to what is open, over ${CASES} drawn records, under %j`, (readings) => {
    const offset = 100_000 * READINGS.indexOf(readings);
    let widened = 0;
    for (let seed = 1; seed <= CASES; seed++) {
      const { open, complete } = drawRecord(drawnBy(offset + seed));
      const settled = basesOf(complete, readings);
      for (const basis of basesOf(open, readings)) {
        const then = settled.find((candidate) => candidate.basis === basis.basis) as IndexBasis;
        expect(then.low, `seed ${seed}, ${basis.basis}: a complete record has no width`).toBeUndefined();
        expect(escaped(basis, then), `seed ${seed}, ${basis.basis}`).toEqual([]);
        if (basis.low) widened++;
      }
    }
    expect(widened).toBeGreaterThan(CASES / 2);
  });
});
