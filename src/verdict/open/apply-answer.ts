import { applyPatch } from '#record/patch/apply-patch';
import { isScaffold } from '#record/patch/is-scaffold';
import { keysOf, valueAt } from '#record/patch/json-pointer';
import type { Assessment } from '#record/schema/assessment';
import type { OpenAnswer } from './open-variable.ts';

/**
 * What is the record with this answer in it? The record given stays as it is; maps that another answer made since this one was
 * listed keep what it wrote there. Throws a RangeError where the answer does not fit the record: it was made for another.
 */
export const applyAnswer = (assessment: Assessment, { id, patch }: OpenAnswer): Assessment => {
  const needed = patch.filter(
    (operation) => !isScaffold(operation, patch) || valueAt(assessment, keysOf(operation.path)) === undefined,
  );
  const applied = applyPatch(assessment, needed);
  if (!applied.fits) throw new RangeError(`answer ${id} does not fit the record at ${applied.place}`);
  return applied.document;
};
