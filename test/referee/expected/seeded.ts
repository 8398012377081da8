import { seededNumbers } from '#quantity/seeded-numbers';

/** A seeded source of numbers: what does the next call of each kind return? Same seed, same numbers. */
export interface Seeded {
  /** 0 to 1, 1 excluded. */
  readonly unit: () => number;
  /** A whole number from low to high, both included. */
  readonly int: (low: number, high: number) => number;
  readonly chance: (probability: number) => boolean;
  readonly pick: <T>(list: readonly T[]) => T;
}

/** Which draws follow from a seed? */
export const seeded = (seed: number): Seeded => {
  const unit = seededNumbers(seed);
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
