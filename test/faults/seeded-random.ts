import { type SeededNumbers, seededNumbers } from '#quantity/seeded-numbers';

/** Draws that are the same for the same seed. */
export class SeededRandom {
  private readonly next: SeededNumbers;

  constructor(seed: number) {
    this.next = seededNumbers(seed);
  }

  /** A whole number from 0 to below the bound. */
  below(bound: number): number {
    return Math.floor(this.next() * bound);
  }

  /** One of the items; the list must not be empty. */
  pick<T>(items: readonly T[]): T {
    return items[this.below(items.length)] as T;
  }
}
