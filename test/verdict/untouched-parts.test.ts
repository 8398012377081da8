import { describe, expect, it } from 'vitest';
import { indexWidth } from '#schemes/eu-2023-1669/index-width';
import { openQuestions } from '#verdict/bounds/open-questions';
import { openState, openStates, widthWith } from '#verdict/bounds/open-state';
import { groundworkOf, readingsOf } from '#verdict/index-bases';
import { applyAnswer } from '#verdict/open/apply-answer';
import { SeededRandom } from '../faults/seeded-random.ts';
import { share } from '../share.ts';
import { drawRecord } from './drawn-record.ts';

const drawnBy = (seed: number): (() => number) => {
  const stream = new SeededRandom(seed);
  return () => stream.below(2 ** 20) / 2 ** 20;
};

const RECORDS = share(4, 300);

describe('widthWith', { timeout: 3_600_000 }, () => {
  it(`works out of a record with one more answer what the whole record gives, on every basis of ${RECORDS} drawn records`, () => {
    let compared = 0;
    for (let seed = 1; seed <= RECORDS; seed++) {
      const { open } = drawRecord(drawnBy(1_230_000 + seed));
      const readings = readingsOf(open);
      for (const state of openStates(groundworkOf(open), readings))
        for (const variable of openQuestions(state, 'R'))
          for (const answer of variable.answers) {
            const anew = openState(state.inputs.basis, groundworkOf(applyAnswer(open, answer)), readings);
            const where = `seed ${seed}, ${state.inputs.basis}, ${variable.id}: ${answer.id}`;
            expect(widthWith(state, { variable, answer }), where).toEqual(
              anew && indexWidth(anew.inputs.wide, readings),
            );
            compared++;
          }
    }
    expect(compared).toBeGreaterThan(RECORDS);
  });
});
