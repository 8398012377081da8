import { invariant } from '#quantity/unfasten-error';
import { overlap, readPointer, valueAt } from '#record/patch/json-pointer';
import type { Json, Operation } from '#record/patch/operation';
import { applyPatch } from './apply-patch.ts';

/**
 * Which patch takes a patch back? Computed on the document before it; the operations come in the opposite order, and each
 * first tests that what the patch left is still there. The patch must apply to the document.
 */
export const invertPatch = (before: unknown, patch: readonly Operation[]): readonly Operation[] => {
  let document = before;
  const inverse: (readonly Operation[])[] = [];
  for (const operation of patch) {
    const { document: after, faults, failedTests } = applyPatch(document, [operation]);
    invariant(faults.length === 0 && failedTests.length === 0, 'A stored patch does not apply', operation.path);
    inverse.push(invertOperation(document, after, operation));
    document = after;
  }
  return inverse.reverse().flat();
};

const invertOperation = (before: unknown, after: unknown, operation: Operation): readonly Operation[] => {
  if (operation.op === 'test') return [];
  const back = restore(before, after, operation.path);
  if (operation.op !== 'move' || overlap(readPointer(operation.path) ?? [], readPointer(operation.from) ?? []))
    return back;
  return [...back, ...restore(before, after, operation.from)];
};

/** Puts one place back to what it was: three cases, by what stood there before and what does after. */
const restore = (before: unknown, after: unknown, path: string): readonly Operation[] => {
  const keys = readPointer(path) ?? [];
  const [old, left] = [valueAt(before, keys) as Json | undefined, valueAt(after, keys) as Json | undefined];
  const test: readonly Operation[] = left === undefined ? [] : [{ op: 'test', path, value: left }];
  if (old === undefined) return left === undefined ? [] : [...test, { op: 'remove', path }];
  return [...test, { op: left === undefined ? 'add' : 'replace', path, value: old }];
};
