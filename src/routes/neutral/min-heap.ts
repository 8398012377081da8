/** A binary heap of numbered items, least key first; equal keys by the second key, then in no promised order. */
export class MinHeap {
  #keys: Float64Array;
  #seconds: Float64Array;
  #items: Int32Array;
  size = 0;
  /** Key of the item that `pop` answered last. */
  poppedKey = 0;

  constructor(capacity: number) {
    this.#keys = new Float64Array(capacity);
    this.#seconds = new Float64Array(capacity);
    this.#items = new Int32Array(capacity);
  }

  /** The least key; infinity when empty. */
  get leastKey(): number {
    return this.size === 0 ? Number.POSITIVE_INFINITY : (this.#keys[0] as number);
  }

  push(key: number, second: number, item: number): void {
    if (this.size === this.#items.length) this.#grow();
    const keys = this.#keys;
    const seconds = this.#seconds;
    let at = this.size++;
    while (at > 0) {
      const up = (at - 1) >> 1;
      const upKey = keys[up] as number;
      if (upKey < key || (upKey === key && (seconds[up] as number) <= second)) break;
      keys[at] = upKey;
      seconds[at] = seconds[up] as number;
      this.#items[at] = this.#items[up] as number;
      at = up;
    }
    keys[at] = key;
    seconds[at] = second;
    this.#items[at] = item;
  }

  /** Takes out the item with the least key; the heap must not be empty. */
  pop(): number {
    const keys = this.#keys;
    const seconds = this.#seconds;
    const items = this.#items;
    const top = items[0] as number;
    this.poppedKey = keys[0] as number;
    const size = --this.size;
    const key = keys[size] as number;
    const second = seconds[size] as number;
    let at = 0;
    for (;;) {
      let down = 2 * at + 1;
      if (down >= size) break;
      if (down + 1 < size && this.#isBefore(down + 1, down)) down++;
      const downKey = keys[down] as number;
      if (key < downKey || (key === downKey && second <= (seconds[down] as number))) break;
      keys[at] = downKey;
      seconds[at] = seconds[down] as number;
      items[at] = items[down] as number;
      at = down;
    }
    keys[at] = key;
    seconds[at] = second;
    items[at] = items[size] as number;
    return top;
  }

  #isBefore(a: number, b: number): boolean {
    const keyA = this.#keys[a] as number;
    const keyB = this.#keys[b] as number;
    return keyA < keyB || (keyA === keyB && (this.#seconds[a] as number) < (this.#seconds[b] as number));
  }

  #grow(): void {
    const capacity = Math.max(16, 2 * this.#items.length);
    const keys = new Float64Array(capacity);
    const seconds = new Float64Array(capacity);
    const items = new Int32Array(capacity);
    keys.set(this.#keys);
    seconds.set(this.#seconds);
    items.set(this.#items);
    this.#keys = keys;
    this.#seconds = seconds;
    this.#items = items;
  }
}
