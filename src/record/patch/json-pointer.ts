/** One path of a patch, taken apart: the keys from the document's root down. */
export type Keys = readonly string[];

/** Which keys does a JSON Pointer (RFC 6901, section 3) name? `undefined` when it is none. */
export const readPointer = (pointer: string): Keys | undefined => {
  if (pointer === '') return [];
  if (!pointer.startsWith('/') || /~(?![01])/.test(pointer)) return undefined;
  return pointer
    .slice(1)
    .split('/')
    .map((key) => key.replaceAll('~1', '/').replaceAll('~0', '~'));
};

/** Which keys does a pointer name that is known to be one? Throws a RangeError where it is none after all. */
export const keysOf = (pointer: string): Keys => {
  const keys = readPointer(pointer);
  if (!keys) throw new RangeError(`${pointer} is no JSON Pointer`);
  return keys;
};

/** How is a path written as a JSON Pointer? */
export const pointerOf = (keys: Keys): string =>
  keys.map((key) => `/${key.replaceAll('~', '~0').replaceAll('/', '~1')}`).join('');

/** Is one of two places inside the other, or are they the same? */
export const overlap = (a: Keys, b: Keys): boolean => {
  const [shorter, longer] = a.length <= b.length ? [a, b] : [b, a];
  return shorter.every((key, index) => key === longer[index]);
};

/** What stands at a place? `undefined` where nothing does. Only own members count, so no prototype answers. */
export const valueAt = (document: unknown, keys: Keys): unknown => {
  let value = document;
  for (const key of keys) {
    if (typeof value !== 'object' || value === null || !Object.hasOwn(value, key)) return undefined;
    value = (value as Record<string, unknown>)[key];
  }
  return value;
};
