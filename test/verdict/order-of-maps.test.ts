import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { readAssessment } from '#record/read/read-assessment';
import type { Assessment } from '#record/schema/assessment';
import { groundworkOf, indexBases, readingsOf } from '#verdict/index-bases';
import { questionBasis, rankedQuestions } from '#verdict/outlook/ranked-questions';

const readExample = (name: string): Assessment =>
  readAssessment({ fileName: name, bytes: readFileSync(`examples/${name}/assessment.yaml`) }).assessment as Assessment;

/** The same record with the keys of every map in another order; what is a list keeps its own. */
const rewritten = (value: unknown, inOrder: (a: string, b: string) => number): unknown => {
  if (Array.isArray(value)) return value.map((each) => rewritten(each, inOrder));
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(
    Object.entries(value)
      .sort(([a], [b]) => inOrder(a, b))
      .map(([key, each]) => [key, rewritten(each, inOrder)]),
  );
};

const forth = (a: string, b: string): number => (a < b ? -1 : 1);

/** What the bases and the questions come to; a ledger keeps its maps in alphabetical order, a folder as they were written. */
const saidOf = (record: Assessment): unknown => {
  const bases = indexBases(groundworkOf(record), readingsOf(record));
  const basis = questionBasis(record);
  const { questions } = basis ? rankedQuestions(basis) : { questions: [] };
  return {
    bases: bases.map(({ basis: name, figures, low, high }) => ({ name, figures, low, high })),
    questions: questions.map(({ ids, guaranteed, effects }) => [ids, guaranteed, effects.length]),
  };
};

describe('the order in which the maps of a record are written', () => {
  it.each(['tarn-5', 'tarn-4', 'beck-11'])('moves neither a figure nor a question of %s', (name) => {
    const record = readExample(name);
    const said = saidOf(record);
    expect(saidOf(rewritten(record, forth) as Assessment)).toEqual(said);
    expect(saidOf(rewritten(record, (a, b) => forth(b, a)) as Assessment)).toEqual(said);
  });
});
