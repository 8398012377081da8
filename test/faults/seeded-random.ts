/** A stream of numbers that is the same for the same seed (mulberry32). */
export class SeededRandom {
  private state: number;

  constructor(seed: number) {
    this.state = seed >>> 0;
  }

  /** A whole number from 0 to below the bound. */
  below(bound: number): number {
    this.state = (this.state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(this.state ^ (this.state >>> 15), this.state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return Math.floor((((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32) * bound);
  }

  /** One of the items; the list must not be empty. */
  pick<T>(items: readonly T[]): T {
    return items[this.below(items.length)] as T;
  }
}
