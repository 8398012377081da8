import { applyPatch } from '#record/patch/apply-patch';
import type { Assessment } from '#record/schema/assessment';
import type { OpenAnswer } from './open-variable.ts';

/**
 * What is the record with this answer in it? The record given stays as it is. Throws a RangeError where the answer does not
 * fit the record: it was made for another.
 */
export const applyAnswer = (assessment: Assessment, answer: OpenAnswer): Assessment => {
  const applied = applyPatch(assessment, answer.patch);
  if (!applied.fits) throw new RangeError(`answer ${answer.id} does not fit the record at ${applied.place}`);
  return applied.document;
};
