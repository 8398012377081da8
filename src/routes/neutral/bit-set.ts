/** How many 32-bit words hold this many bits? At least one. */
export const wordsFor = (bits: number): number => Math.max(1, (bits + 31) >>> 5);

/** Is this bit set in the set that starts at `offset`? */
export const hasBit = (words: Int32Array, bit: number, offset = 0): boolean =>
  ((words[offset + (bit >>> 5)] as number) & (1 << (bit & 31))) !== 0;

/** Puts a bit into a set that starts at word 0. */
export const setBit = (words: Int32Array, bit: number): void => {
  words[bit >>> 5] = (words[bit >>> 5] as number) | (1 << (bit & 31));
};

/** Takes a bit out of a set that starts at word 0. */
export const clearBit = (words: Int32Array, bit: number): void => {
  words[bit >>> 5] = (words[bit >>> 5] as number) & ~(1 << (bit & 31));
};

/** How many bits are set? */
export const countBits = (words: Int32Array): number => {
  let count = 0;
  for (let word of words) for (; word !== 0; word &= word - 1) count++;
  return count;
};

/** Which bits are set? Written to `into` in ascending order; answers how many. */
export const listBits = (words: Int32Array, into: Int32Array): number => {
  let count = 0;
  for (let index = 0; index < words.length; index++) {
    for (let word = words[index] as number; word !== 0; word &= word - 1)
      into[count++] = (index << 5) + 31 - Math.clz32(word & -word);
  }
  return count;
};
