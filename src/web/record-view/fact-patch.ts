import { keysOf, valueAt } from '#record/patch/json-pointer';
import type { Patch } from '#record/patch/operation';
import type { Assessment } from '#record/schema/assessment';

/**
 * Which patch writes a line of text into a field of the record? Empty takes the field away: it is then not known. What
 * stood there is tested, so that nobody overwrites what they did not see. `undefined` where nothing changes.
 */
export const factPatch = (document: Assessment, path: string, text: string): Patch | undefined => {
  const before = valueAt(document, keysOf(path));
  const after = text.trim();
  if ((before ?? '') === after) return undefined;
  if (typeof before !== 'string') return [{ op: 'add', path, value: after }];
  const test = { op: 'test', path, value: before } as const;
  return [test, after === '' ? { op: 'remove', path } : { op: 'replace', path, value: after }];
};
