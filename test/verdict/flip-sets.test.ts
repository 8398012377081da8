import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { readAssessment } from '#record/read/read-assessment';
import type { Assessment } from '#record/schema/assessment';
import { openQuestions } from '#verdict/bounds/open-questions';
import { openState } from '#verdict/bounds/open-state';
import { type FlipSets, flipSets } from '#verdict/flips/flip-sets';
import { groundworkOf, readingsOf } from '#verdict/index-bases';
import { lettersOf } from '#verdict/letters';
import { applyAnswer } from '#verdict/open/apply-answer';
import { SeededRandom } from '../faults/seeded-random.ts';
import { basisOf, smallRecord } from '../records/small-record.ts';
import { share } from '../share.ts';
import { drawRecord } from './drawn-record.ts';

const RECORDS = share(3, 200);

const drawnBy = (seed: number): (() => number) => {
  const stream = new SeededRandom(seed);
  return () => stream.below(2 ** 20) / 2 ** 20;
};

const stateOf = (record: Assessment) => {
  const state = openState('best', groundworkOf(record), readingsOf(record));
  if (!state) throw new RangeError('nothing for best found');
  return state;
};

const asIds = ({ sets }: FlipSets): readonly string[] =>
  sets
    .map(({ letter, answers }) =>
      [letter, ...answers.map(({ variable, answer }) => `${variable.id}=${answer.id}`).sort()].join(' '),
    )
    .sort();

/** The same by the ordinary engine: every pair of answers put into the record, smaller sets first. */
const byBruteForce = (record: Assessment, now: string | undefined): readonly string[] => {
  const questions = [...openQuestions(stateOf(record), 'R')].filter(({ covers }) => covers !== false);
  const letterWith = (answered: Assessment): string | undefined => {
    const index = basisOf(answered, 'best');
    const letters = lettersOf(index, readingsOf(answered));
    return letters.length === 1 && !index.mayBeNotScorable && letters[0] !== now ? letters[0] : undefined;
  };
  const singles = questions.flatMap((variable) =>
    variable.answers.map((answer) => ({ variable, answer, id: `${variable.id}=${answer.id}` })),
  );
  const found: { letter: string; ids: readonly string[] }[] = [];
  for (const { answer, id } of singles) {
    const letter = letterWith(applyAnswer(record, answer));
    if (letter) found.push({ letter, ids: [id] });
  }
  for (const [index, one] of singles.entries())
    for (const other of singles.slice(index + 1)) {
      if (one.variable === other.variable) continue;
      const letter = letterWith(applyAnswer(applyAnswer(record, one.answer), other.answer));
      const isHeld = found.some(
        (set) => set.letter === letter && set.ids.every((id) => id === one.id || id === other.id),
      );
      if (letter && !isHeld) found.push({ letter, ids: [one.id, other.id].sort() });
    }
  return found.map(({ letter, ids }) => [letter, ...ids].join(' ')).sort();
};

describe('flipSets', { timeout: 3_600_000 }, () => {
  it(`finds the sets of up to two answers that brute force finds, over ${RECORDS} drawn records`, () => {
    let found = 0;
    for (let seed = 1, looked = 0; looked < RECORDS; seed++) {
      const { open } = drawRecord(drawnBy(1_000_000 + seed));
      const answers = [...openQuestions(stateOf(open), 'R')].flatMap((question) => question.answers).length;
      if (answers === 0 || answers > 16) continue;
      looked++;
      const sets = flipSets(stateOf(open), { size: 2 });
      expect(asIds(sets), `seed ${seed}`).toEqual(byBruteForce(open, sets.letter));
      found += sets.sets.length;
    }
    expect(found).toBeGreaterThan(0);
  });

  it('finds the sets of three that the table of SSU names where the record says nothing of updates yet', () => {
    const file = new URL('../../examples/tarn-4/assessment.yaml', import.meta.url);
    const settled = readAssessment({ fileName: 'assessment.yaml', bytes: readFileSync(file) }).assessment as Assessment;
    const { software, ...supply } = settled.supply ?? {};
    expect(software).toBeDefined();
    const { sets, completeTo } = flipSets(stateOf({ ...settled, supply }));
    // R is 3.9525 with SSU 5, so 3.6525 with SSU 3 and 3.3525 with SSU 1 (weight 0.15): class B whichever, once all three are known.
    const years = ['5', '6', '7'];
    const all = years.flatMap((one) => years.flatMap((two) => years.map((three) => [one, two, three].join())));
    expect(completeTo).toBe(3);
    expect(sets.map(({ letter, answers }) => `${letter} ${answers.map(({ answer }) => answer.id).join()}`)).toEqual(
      all.reverse().map((ids) => `B ${ids}`),
    );
  });

  it('says how far it looked when the limit is met', () => {
    const record = smallRecord({ parts: { battery: { role: 'battery', behind: [] } }, log: [['lift', 'battery']] });
    expect(flipSets(stateOf(record), { limit: 3 })).toEqual({ sets: [], letter: undefined, completeTo: 0 });
  });
});
