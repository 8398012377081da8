import { applyPatch } from '#record/patch/apply-patch';
import { isScaffold } from '#record/patch/is-scaffold';
import { keysOf, valueAt } from '#record/patch/json-pointer';
import type { Json, Operation, Patch } from '#record/patch/operation';
import type { Assessment } from '#record/schema/assessment';

/**
 * How does an answer that was made for one state of the record go into a newer one? As it is, less the maps that are there by
 * now. `undefined` where what it writes over is not what it was made for any more: then it waits for newer questions.
 */
export const fittedPatch = (patch: Patch, from: Assessment, to: Assessment): Patch | undefined => {
  if (from === to) return patch;
  const fitted: Operation[] = [];
  for (const operation of patch) {
    const [before, now] = [valueAt(from, keysOf(operation.path)), valueAt(to, keysOf(operation.path))];
    if (isScaffold(operation, patch)) {
      if (now === undefined) fitted.push(operation);
    } else if (JSON.stringify(before) === JSON.stringify(now)) fitted.push(operation);
    else return undefined;
  }
  return applyPatch(to, fitted).fits ? fitted : undefined;
};

/**
 * Which change takes an answer back? What stood at its places before stands there again; each is tested, so that nothing
 * somebody wrote since is lost. `undefined` where something was. Maps made for it stay, empty.
 */
export const takenBackPatch = (before: Assessment, now: Assessment, patch: Patch): Patch | undefined => {
  const after = applyPatch(before, patch);
  if (!after.fits) return undefined;
  const back: Operation[] = [];
  for (const operation of patch) {
    if (isScaffold(operation, patch)) continue;
    const { path } = operation;
    const [was, written, stands] = [before, after.document, now].map((document) => valueAt(document, keysOf(path)));
    if (JSON.stringify(written) !== JSON.stringify(stands)) return undefined;
    back.push({ op: 'test', path, value: stands as Json });
    back.push(was === undefined ? { op: 'remove', path } : { op: 'replace', path, value: was as Json });
  }
  return back;
};
