import type { Assessment } from '#record/schema/assessment';
import { diagnosedSwaps } from './diagnosed-swaps.ts';
import { type JudgedPart, judgedPart } from './what-does-it.ts';

/** The parts of a record that swaps were made of, as consequences look at them; in the record's order. */
export const judgedParts = (assessment: Assessment): readonly JudgedPart[] => {
  const { diagnoses, runs } = diagnosedSwaps(assessment);
  return [...diagnoses.values()].map((diagnosis) => judgedPart(diagnosis, runs.get(diagnosis.part) ?? []));
};
