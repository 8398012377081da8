/** A queue of nodes by price; among equal prices the one put in last comes out first, so that a search dives. */
export class PriceQueue {
  size = 0;
  /** The price of the node taken out last. */
  taken = Number.NaN;
  private entries = 0;
  private heap: Int32Array;
  private prices: Float64Array;
  private nodes: Int32Array;

  constructor(capacity = 256) {
    this.heap = new Int32Array(capacity);
    this.prices = new Float64Array(capacity);
    this.nodes = new Int32Array(capacity);
  }

  /** The lowest price in the queue; Infinity when empty. */
  get lowest(): number {
    return this.size === 0 ? Number.POSITIVE_INFINITY : (this.prices[this.heap[0] ?? 0] ?? 0);
  }

  push(node: number, price: number): void {
    if (this.entries === this.nodes.length) this.grow();
    const entry = this.entries++;
    this.prices[entry] = price;
    this.nodes[entry] = node;
    let at = this.size++;
    while (at > 0) {
      const up = (at - 1) >> 1;
      const above = this.heap[up] ?? 0;
      if (!this.precedes(entry, above)) break;
      this.heap[at] = above;
      at = up;
    }
    this.heap[at] = entry;
  }

  /** Takes out the node with the lowest price; -1 when empty. Its price is then in `taken`. */
  pop(): number {
    if (this.size === 0) return -1;
    const top = this.heap[0] ?? 0;
    const last = this.heap[--this.size] ?? 0;
    let at = 0;
    for (let child = 1; child < this.size; child = at * 2 + 1) {
      if (child + 1 < this.size && this.precedes(this.heap[child + 1] ?? 0, this.heap[child] ?? 0)) child++;
      const below = this.heap[child] ?? 0;
      if (this.precedes(last, below)) break;
      this.heap[at] = below;
      at = child;
    }
    this.heap[at] = last;
    this.taken = this.prices[top] ?? Number.NaN;
    return this.nodes[top] ?? -1;
  }

  private precedes(entry: number, other: number): boolean {
    const price = this.prices[entry] ?? 0;
    const otherPrice = this.prices[other] ?? 0;
    return price < otherPrice || (price === otherPrice && entry > other);
  }

  private grow(): void {
    const capacity = this.nodes.length * 2;
    const { heap, nodes, prices } = this;
    this.heap = new Int32Array(capacity);
    this.heap.set(heap);
    this.nodes = new Int32Array(capacity);
    this.nodes.set(nodes);
    this.prices = new Float64Array(capacity);
    this.prices.set(prices);
  }
}
