/** Seeded draws (mulberry32), so that every run tries the same cases. */
export class Draw {
  private state: number;
  constructor(seed: number) {
    this.state = seed >>> 0;
  }
  /** A number from 0 up to, not with, 1. */
  next(): number {
    this.state = (this.state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(this.state ^ (this.state >>> 15), this.state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
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
