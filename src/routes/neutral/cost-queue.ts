/**
 * Numbered items by cost, cheapest first, for one sweep in which costs never fall below the one last taken out. Items as
 * cheap as that one wait on a stack: zero costs are common, and these never touch the heap.
 */
export class CostQueue {
  #keys: Float64Array;
  #items: Int32Array;
  #level: Int32Array;
  #size = 0;
  #levelSize = 0;
  /** Cost of the item that `pop` answered last. */
  cost = -1;

  constructor(capacity: number) {
    this.#keys = new Float64Array(capacity);
    this.#items = new Int32Array(capacity);
    this.#level = new Int32Array(capacity);
  }

  /** Readies the empty queue for a new sweep. */
  begin(): void {
    this.cost = -1;
  }

  push(key: number, item: number): void {
    if (key === this.cost) {
      if (this.#levelSize === this.#level.length) this.#level = grown(this.#level);
      this.#level[this.#levelSize++] = item;
      return;
    }
    if (this.#size === this.#items.length) this.#grow();
    let at = this.#size++;
    while (at > 0) {
      const up = (at - 1) >> 1;
      const upKey = this.#keys[up] as number;
      if (upKey <= key) break;
      this.#keys[at] = upKey;
      this.#items[at] = this.#items[up] as number;
      at = up;
    }
    this.#keys[at] = key;
    this.#items[at] = item;
  }

  /** Takes out a cheapest item, whose cost then stands in `cost`; -1 when there is none. */
  pop(): number {
    if (this.#levelSize > 0) return this.#level[--this.#levelSize] as number;
    if (this.#size === 0) return -1;
    const top = this.#items[0] as number;
    this.cost = this.#keys[0] as number;
    this.#sink(--this.#size);
    return top;
  }

  #sink(size: number): void {
    const keys = this.#keys;
    const items = this.#items;
    const key = keys[size] as number;
    let at = 0;
    for (;;) {
      let down = 2 * at + 1;
      if (down >= size) break;
      if (down + 1 < size && (keys[down + 1] as number) < (keys[down] as number)) down++;
      if (key <= (keys[down] as number)) break;
      keys[at] = keys[down] as number;
      items[at] = items[down] as number;
      at = down;
    }
    keys[at] = key;
    items[at] = items[size] as number;
  }

  #grow(): void {
    const keys = new Float64Array(2 * this.#keys.length);
    keys.set(this.#keys);
    this.#keys = keys;
    this.#items = grown(this.#items);
  }
}

const grown = (old: Int32Array): Int32Array<ArrayBuffer> => {
  const next = new Int32Array(2 * old.length);
  next.set(old);
  return next;
};
