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
import type { OpenAnswer } from '#verdict/open/open-variable';
import { SeededRandom } from '../faults/seeded-random.ts';
import { basisOf, smallRecord } from '../records/small-record.ts';
import { share } from '../share.ts';
import { drawRecord } from './drawn-record.ts';

const RECORDS = share(3, 200);
/** Answers of a record that is tried in every way. */
const MOST_ANSWERS = share(8, 16);

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

interface Single {
  readonly variable: string;
  readonly answer: OpenAnswer;
}

const isPart = (part: readonly Single[], of: readonly Single[]): boolean => part.every((one) => of.includes(one));

/** The same by the ordinary engine: every set of up to three answers put into the record, smaller sets first. */
const byBruteForce = (record: Assessment, now: string | undefined): readonly string[] => {
  const questions = [...openQuestions(stateOf(record), 'R')].filter(({ covers }) => covers !== false);
  const singles: readonly Single[] = questions.flatMap(({ id, answers }) =>
    answers.map((answer) => ({ variable: id, answer })),
  );
  const letterWith = (set: readonly Single[]): string | undefined => {
    const answered = set.reduce((before, { answer }) => applyAnswer(before, answer), record);
    const index = basisOf(answered, 'best');
    const letters = lettersOf(index, readingsOf(answered));
    return letters.length === 1 && !index.mayBeNotScorable && letters[0] !== now ? letters[0] : undefined;
  };
  const found: { letter: string; set: readonly Single[] }[] = [];
  let sets: readonly (readonly Single[])[] = [[]];
  for (let size = 1; size <= 3; size++) {
    sets = sets.flatMap((set) =>
      singles
        .slice(singles.indexOf(set.at(-1) as Single) + 1)
        .filter(({ variable }) => set.every((one) => one.variable !== variable))
        .map((one) => [...set, one]),
    );
    for (const set of sets) {
      const letter = letterWith(set);
      const isHeld = found.some((known) => known.letter === letter && isPart(known.set, set));
      if (letter && !isHeld) found.push({ letter, set });
    }
  }
  return found
    .map(({ letter, set }) =>
      [letter, ...set.map(({ variable, answer }) => `${variable}=${answer.id}`).sort()].join(' '),
    )
    .sort();
};

describe('flipSets', { timeout: 3_600_000 }, () => {
  it(`finds the sets of up to three answers that brute force finds, over ${RECORDS} drawn records`, () => {
    let found = 0;
    for (let seed = 1, looked = 0; looked < RECORDS; seed++) {
      const { open } = drawRecord(drawnBy(1_000_000 + seed));
      const answers = [...openQuestions(stateOf(open), 'R')].flatMap((question) => question.answers).length;
      if (answers < 3 || answers > MOST_ANSWERS) continue;
      looked++;
      const sets = flipSets(stateOf(open));
      expect(sets.completeTo).toBe(3);
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
