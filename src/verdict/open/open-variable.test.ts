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

const problemsIn = (record: Assessment): readonly unknown[] =>
  readAssessment({ fileName: 'assessment.json', bytes: Buffer.from(JSON.stringify(record)) }).problems.filter(
    ({ severity }) => severity === 'error',
  );

test('every answer about a record that is a log and nothing else leaves a record that can be read', () => {
  const kinds = new Set<string>();
  for (const state of openStates(groundworkOf(logged), readingsOf(logged)))
    for (const { id, kind, answers } of openQuestions(state, 'R'))
      for (const answer of answers) {
        expect(problemsIn(applyAnswer(logged, answer)), `${id} = ${answer.id}`).toEqual([]);
        kinds.add(kind);
      }
  expect(kinds).toEqual(new Set(['fact', 'trial']));
});

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
