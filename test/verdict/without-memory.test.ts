import { describe, expect, it } from 'vitest';
import { openQuestions } from '#verdict/bounds/open-questions';
import { openStates } from '#verdict/bounds/open-state';
import { groundworkOf, readingsOf } from '#verdict/index-bases';
import { applyAnswer } from '#verdict/open/apply-answer';
import { SeededRandom } from '../faults/seeded-random.ts';
import { basesOf } from '../records/small-record.ts';
import { share } from '../share.ts';
import { drawRecord } from './drawn-record.ts';

const RECORDS = share(2, 300);

const drawnBy = (seed: number): (() => number) => {
  const stream = new SeededRandom(seed);
  return () => stream.below(2 ** 20) / 2 ** 20;
};

/** Seed 13 once read otherwise after an answer was tried: a search kept for one record was taken for another's. */
const SEEDS = [13, ...Array.from({ length: RECORDS }, (_, index) => 1000 + index)];

describe('a basis', { timeout: 3_600_000 }, () => {
  it(`is the same before and after every answer was tried, over ${SEEDS.length} drawn records`, () => {
    for (const seed of SEEDS) {
      const { open } = drawRecord(drawnBy(900_000 + seed));
      const ends = (): unknown => {
        const bases = basesOf(structuredClone(open));
        return bases.map(({ basis, low, high, figures }) => ({ basis, low, high, figures }));
      };
      const before = ends();
      for (const state of openStates(groundworkOf(open), readingsOf(open)))
        for (const { answers } of openQuestions(state, 'R'))
          for (const answer of answers) basesOf(applyAnswer(open, answer));
      expect(ends(), `seed ${seed}`).toEqual(before);
    }
  });
});
