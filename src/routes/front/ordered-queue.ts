/** A queue in the order that `precedes` gives: which item comes next? */
export class OrderedQueue<T> {
  private readonly heap: T[] = [];
  private readonly precedes: (a: T, b: T) => boolean;

  constructor(precedes: (a: T, b: T) => boolean) {
    this.precedes = precedes;
  }

  push(item: T): void {
    let at = this.heap.push(item) - 1;
    while (at > 0) {
      const up = (at - 1) >> 1;
      const above = this.heap[up];
      if (!above || !this.precedes(item, above)) break;
      this.heap[at] = above;
      at = up;
    }
    this.heap[at] = item;
  }
  pop(): T | undefined {
    const top = this.heap[0];
    const last = this.heap.pop();
    if (!top || !last || this.heap.length === 0) return top;
    let at = 0;
    for (let child = 1; child < this.heap.length; child = at * 2 + 1) {
      let below = this.heap[child];
      const other = this.heap[child + 1];
      if (below && other && this.precedes(other, below)) {
        child++;
        below = other;
      }
      if (!below || this.precedes(last, below)) break;
      this.heap[at] = below;
      at = child;
    }
    this.heap[at] = last;
    return top;
  }
}
