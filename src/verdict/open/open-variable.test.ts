import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { deviceOf } from '#record/device/device';
import { readAssessment } from '#record/read/read-assessment';
import type { Assessment } from '#record/schema/assessment';
import { openQuestions } from '../bounds/open-questions.ts';
import { openStates } from '../bounds/open-state.ts';
import { groundworkOf, readingsOf } from '../index-bases.ts';
import { applyAnswer } from './apply-answer.ts';

const file = new URL('../../../examples/quick-log/assessment.yaml', import.meta.url);
const logged = readAssessment({ fileName: 'assessment.yaml', bytes: readFileSync(file) }).assessment as Assessment;

const rolesIn = (record: Assessment): readonly string[] =>
  [...deviceOf(record).parts.values()].map(({ id, role }) => `${id}: ${role}`).sort();

test('no answer takes away the role of a part that only a log names', () => {
  const before = rolesIn(logged);
  let answered = 0;
  for (const state of openStates(groundworkOf(logged), readingsOf(logged)))
    for (const { id, answers } of openQuestions(state, 'R'))
      for (const answer of answers) {
        expect(rolesIn(applyAnswer(logged, answer)), `${id} = ${answer.id}`).toEqual(
          expect.arrayContaining([...before]),
        );
        answered += 1;
      }
  expect(answered).toBeGreaterThan(100);
});
