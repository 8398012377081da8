import { type SeededNumbers, seededNumbers } from '#quantity/seeded-numbers';

/** Seeded draws, so that every run tries the same cases. */
export class Draw {
  /** A number from 0 up to, not with, 1. */
  readonly next: SeededNumbers;
  constructor(seed: number) {
    this.next = seededNumbers(seed);
  }
  /** A whole number from 0 up to, not with, `end`. */
  below(end: number): number {
    return Math.floor(this.next() * end);
  }
  chance(probability: number): boolean {
    return this.next() < probability;
  }
  one<T>(items: readonly T[]): T {
    const item = items[this.below(items.length)];
    if (item === undefined) throw new Error('drawn from an empty list');
    return item;
  }
  /** The items in another order. */
  shuffled<T>(items: readonly T[]): T[] {
    const list = [...items];
    for (let at = list.length - 1; at > 0; at--) {
      const other = this.below(at + 1);
      const held = list[at] as T;
      list[at] = list[other] as T;
      list[other] = held;
    }
    return list;
  }
}
