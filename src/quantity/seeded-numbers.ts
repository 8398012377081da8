/** A stream of numbers from 0 to below 1 that is the same for the same seed. */
export type SeededNumbers = () => number;

/**
 * Which numbers follow from a seed? A 32-bit counter with mixing (mulberry32, public domain): the same on every machine, good
 * enough for sampling, no use for secrets. The seed is a whole number; its lowest 32 bits count.
 */
export const seededNumbers = (seed: number): SeededNumbers => {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
};
