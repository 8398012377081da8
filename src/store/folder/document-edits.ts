import type { Keys } from '#record/patch/json-pointer';

/** One place of a document that is to read otherwise than in the file it came from. */
export type DocumentEdit =
  | { readonly kind: 'set' | 'add'; readonly keys: Keys; readonly value: unknown }
  | { readonly kind: 'remove'; readonly keys: Keys };

/**
 * Which places must be written for one document to become the other? As deep as they can be named by keys: a list that
 * differs is set whole. In the order of the older document, additions last.
 */
export const documentEdits = (older: unknown, newer: unknown, keys: Keys = []): readonly DocumentEdit[] => {
  if (!isMap(older) || !isMap(newer)) return isSame(older, newer) ? [] : [{ kind: 'set', keys, value: newer }];
  const edits: DocumentEdit[] = [];
  for (const [key, value] of Object.entries(older)) {
    if (Object.hasOwn(newer, key)) edits.push(...documentEdits(value, newer[key], [...keys, key]));
    else edits.push({ kind: 'remove', keys: [...keys, key] });
  }
  for (const [key, value] of Object.entries(newer))
    if (!Object.hasOwn(older, key)) edits.push({ kind: 'add', keys: [...keys, key], value });
  return edits;
};

/** Is this a map of members? */
export const isMap = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

const isSame = (a: unknown, b: unknown): boolean => {
  if (Object.is(a, b) || (a === 0 && b === 0)) return true;
  if (Array.isArray(a) && Array.isArray(b))
    return a.length === b.length && a.every((item, index) => isSame(item, b[index]));
  if (!isMap(a) || !isMap(b)) return false;
  const keys = Object.keys(a);
  return keys.length === Object.keys(b).length && keys.every((key) => Object.hasOwn(b, key) && isSame(a[key], b[key]));
};
