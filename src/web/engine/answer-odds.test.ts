import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { readAssessment } from '#record/read/read-assessment';
import type { Assessment } from '#record/schema/assessment';
import { questionBasis, rankedQuestions } from '#verdict/outlook/ranked-questions';
import { readOdds } from '#verdict/questions/read-odds';
import { answerOdds } from './answer-odds.ts';

const file = new URL('../../../examples/beck-11/assessment.yaml', import.meta.url);
const document = readAssessment({ fileName: 'assessment.yaml', bytes: readFileSync(file) }).assessment as Assessment;
const basis = questionBasis(document);
const [variable] = [...(basis?.open.values() ?? [])].filter(({ answers }) => answers.length > 1);
const question = variable?.id ?? '';
const answers = variable?.answers.map(({ id }) => id) ?? [];

const asked = (questions: Record<string, Record<string, unknown>>) => {
  const text = JSON.stringify({ format: 'unfasten/odds', version: 1, by: 'M. R.', questions }, undefined, 1);
  const odds = { fileName: 'odds.json', text };
  return { odds, said: answerOdds({ generation: 3, of: 7, document, odds }) };
};
const weights = Object.fromEntries(answers.map((id, index) => [id, index + 1]));

test('answerOdds ranks as the command line does, and gives the weights back as they were given', () => {
  const { odds, said } = asked({ [question]: weights });
  const read = readOdds(
    { fileName: odds.fileName, bytes: new TextEncoder().encode(odds.text) },
    basis?.open ?? new Map(),
  );
  expect(said).toMatchObject({ generation: 3, of: 7, odds, problems: [], given: { by: 'M. R.' } });
  expect(said.given?.weights[question]).toEqual(Object.fromEntries(answers.map((id, index) => [id, `${index + 1}`])));
  expect(said.list).toEqual(basis && rankedQuestions(basis, read.odds?.questions));
  expect(said.list?.questions.filter(({ chance }) => chance !== undefined).map(({ ids }) => ids)).toContainEqual([
    question,
  ]);
});

test('answerOdds leaves a question that is not open aside at its place, and takes nothing of odds with a fault', () => {
  const { said } = asked({ [question]: weights, 'parts/gone/pairing': { yes: 1 } });
  expect(Object.keys(said.given?.weights ?? {})).toEqual([question]);
  expect(said.problems).toMatchObject([
    { severity: 'warning', file: 'odds.json', path: 'questions/parts/gone/pairing', line: answers.length + 8 },
  ]);
  const { said: faulty } = asked({ [question]: { ...weights, [answers[0] ?? '']: -1 } });
  expect(faulty.problems).toMatchObject([{ severity: 'error', line: 7, path: `questions/${question}/${answers[0]}` }]);
  expect([faulty.given, faulty.list]).toEqual([undefined, undefined]);
  const { said: none } = asked({ 'parts/gone/pairing': { yes: 1 } });
  expect([none.given?.weights, none.list]).toEqual([{}, undefined]);
});
