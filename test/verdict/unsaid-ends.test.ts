import { expect, it } from 'vitest';
import type { Assessment, Fastener } from '#record/schema/assessment';
import type { IndexBasis } from '#verdict/index-bases';
import { SeededRandom } from '../faults/seeded-random.ts';
import { basesOf } from '../records/small-record.ts';
import { share } from '../share.ts';
import { drawRecord } from './drawn-record.ts';
import { escaped } from './escaped.ts';

const CASES = share(12, 600);

const drawnBy = (seed: number): (() => number) => {
  const stream = new SeededRandom(seed);
  return () => stream.below(2 ** 20) / 2 ** 20;
};

/** The record without the ends of some fasteners: they are described, and nobody said what they hold. */
const withoutEnds = (record: Assessment, random: () => number): Assessment => ({
  ...record,
  fasteners: Object.fromEntries(
    Object.entries(record.fasteners ?? {}).map(([id, fastener]): [string, Fastener] => {
      const { between: _ends, ...rest } = fastener;
      return [id, random() < 0.6 ? fastener : rest];
    }),
  ),
});

it(`a fastener whose ends nobody said leaves a width that holds every answer, over ${CASES} drawn records`, () => {
  let changed = 0;
  for (let seed = 1; seed <= CASES; seed++) {
    const random = drawnBy(810_000 + seed);
    const { complete } = drawRecord(random);
    const settled = basesOf(complete);
    for (const basis of basesOf(withoutEnds(complete, random))) {
      const then = settled.find((candidate) => candidate.basis === basis.basis) as IndexBasis;
      expect(escaped(basis, then), `seed ${seed}, ${basis.basis}`).toEqual([]);
      if (basis.low) changed++;
    }
  }
  expect(changed).toBeGreaterThan(CASES / 2);
});
