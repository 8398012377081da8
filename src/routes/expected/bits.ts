/** A set of small numbers, 31 to a word so that every word stays a small integer. Sets of one problem have equal length. */
export type Bits = readonly number[];

const WORD = 31;

/** What is the empty set over `size` numbers? */
export const emptyBits = (size: number): number[] => new Array<number>(Math.max(1, Math.ceil(size / WORD))).fill(0);

/** What set over `size` numbers holds exactly these members? */
export const bitsOf = (size: number, members: Iterable<number>): Bits => {
  const set = emptyBits(size);
  for (const member of members) addBit(set, member);
  return set;
};

/** Puts a member into a set still being built. */
export const addBit = (set: number[], member: number): void => {
  const word = (member / WORD) | 0;
  set[word] = (set[word] ?? 0) | (1 << (member % WORD));
};

/** Takes a member out of a set still being built. */
export const removeBit = (set: number[], member: number): void => {
  const word = (member / WORD) | 0;
  set[word] = (set[word] ?? 0) & ~(1 << (member % WORD));
};

/** Is this number a member? */
export const hasBit = (set: Bits, member: number): boolean =>
  ((set[(member / WORD) | 0] ?? 0) & (1 << (member % WORD))) !== 0;

/** What is in either set? */
export const union = (a: Bits, b: Bits): Bits => {
  const result = a.slice();
  for (let word = 0; word < result.length; word++) result[word] = (a[word] ?? 0) | (b[word] ?? 0);
  return result;
};

/** What is in `a` and not in `b`? */
export const without = (a: Bits, b: Bits): Bits => {
  const result = a.slice();
  for (let word = 0; word < result.length; word++) result[word] = (a[word] ?? 0) & ~(b[word] ?? 0);
  return result;
};

/** Adds everything in `added` to a set still being built. */
export const addAll = (set: number[], added: Bits): void => {
  for (let word = 0; word < set.length; word++) set[word] = (set[word] ?? 0) | (added[word] ?? 0);
};

/** Is every member of `inner` a member of `outer`? */
export const isWithin = (inner: Bits, outer: Bits): boolean => {
  for (let word = 0; word < inner.length; word++) if (((inner[word] ?? 0) & ~(outer[word] ?? 0)) !== 0) return false;
  return true;
};

/** Have two sets a member in common? */
export const meets = (a: Bits, b: Bits): boolean => {
  for (let word = 0; word < a.length; word++) if (((a[word] ?? 0) & (b[word] ?? 0)) !== 0) return true;
  return false;
};

/** Has `a` a member that lies within `limit` and not in `b`? */
export const addsWithin = (a: Bits, b: Bits, limit: Bits): boolean => {
  for (let word = 0; word < a.length; word++)
    if (((a[word] ?? 0) & ~(b[word] ?? 0) & (limit[word] ?? 0)) !== 0) return true;
  return false;
};

/** Which are the members, in ascending order? */
export const members = (set: Bits): readonly number[] => {
  const found: number[] = [];
  for (let word = 0; word < set.length; word++) {
    let left = set[word] ?? 0;
    while (left !== 0) {
      const lowest = left & -left;
      found.push(word * WORD + 31 - Math.clz32(lowest));
      left ^= lowest;
    }
  }
  return found;
};

/** How does a set read as a map key? Equal sets of one problem, and only they, read the same. */
export const bitsKey = (set: Bits): string => {
  let key = '';
  for (const word of set) key += String.fromCharCode(word & 0xffff, word >>> 16);
  return key;
};
