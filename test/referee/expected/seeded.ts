/** A seeded source of numbers: what does the next call of each kind return? Same seed, same numbers. */
export interface Seeded {
  /** 0 to 1, 1 excluded. */
  readonly unit: () => number;
  /** A whole number from low to high, both included. */
  readonly int: (low: number, high: number) => number;
  readonly chance: (probability: number) => boolean;
  readonly pick: <T>(list: readonly T[]) => T;
}

/** What numbers follow from a seed? The mulberry32 generator. */
export const seeded = (seed: number): Seeded => {
  let state = seed >>> 0;
  const unit = (): number => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
  const int = (low: number, high: number): number => low + Math.floor(unit() * (high - low + 1));
  return {
    unit,
    int,
    chance: (probability) => unit() < probability,
    pick: (list) => {
      const found = list[int(0, list.length - 1)];
      if (found === undefined) throw new RangeError('nothing to pick from');
      return found;
    },
  };
};
