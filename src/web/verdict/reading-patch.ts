import { pointerOf } from '#record/patch/json-pointer';
import type { Json, Patch } from '#record/patch/operation';
import type { Assessment } from '#record/schema/assessment';

/** A reading to write: the switch, the value chosen, and why. */
export interface ReadingChoice {
  readonly id: string;
  readonly value: string;
  readonly reason: string;
}

/**
 * Which patch takes a reading, with its reason? What stood there is tested, so that nobody overwrites a reading they did not
 * see. A reason without words is left out. `undefined` where nothing changes.
 */
export const readingPatch = (document: Assessment, { id: key, value, reason }: ReadingChoice): Patch | undefined => {
  const before = document.interpretations?.[key];
  const words = reason.trim();
  if (before?.value === value && (before.reason ?? '') === words) return undefined;
  const after: Json = { value, ...(words === '' ? {} : { reason: words }) };
  const path = pointerOf(['interpretations', key]);
  if (before !== undefined)
    return [
      { op: 'test', path, value: before as unknown as Json },
      { op: 'replace', path, value: after },
    ];
  if (document.interpretations !== undefined) return [{ op: 'add', path, value: after }];
  return [{ op: 'add', path: '/interpretations', value: { [key]: after } }];
};

/** Which patch takes the assessment's own choice of a reading back? `undefined` where it has none. */
export const forgetReadingPatch = (document: Assessment, key: string): Patch | undefined => {
  const before = document.interpretations?.[key];
  if (before === undefined) return undefined;
  const path = pointerOf(['interpretations', key]);
  return [
    { op: 'test', path, value: before as unknown as Json },
    { op: 'remove', path },
  ];
};
