/** What the search keeps of a state; `words` is its identity: missing facts, actions of use, tool in hand. */
export interface StoredNode {
  readonly words: Int32Array;
  /** Cost of the way there [ms]. */
  readonly spent: number;
  /** Lower bound of any plan through it [ms]. */
  readonly bound: number;
  readonly parent: number;
  /** Actions done since the parent. */
  readonly steps: readonly number[];
}

/** All states met so far, each once with the cheapest way there, found again by their words. */
export class NodeStore {
  readonly #wordCount: number;
  #words: Int32Array;
  #spent: Float64Array;
  #bounds: Float64Array;
  #parents: Int32Array;
  readonly #steps: (readonly number[])[] = [];
  #open: Uint8Array;
  #refined: Uint8Array;
  #table: Int32Array;
  count = 0;

  constructor(wordCount: number) {
    this.#wordCount = wordCount;
    this.#words = new Int32Array(256 * wordCount);
    this.#spent = new Float64Array(256);
    this.#bounds = new Float64Array(256);
    this.#parents = new Int32Array(256);
    this.#open = new Uint8Array(256);
    this.#refined = new Uint8Array(256);
    this.#table = new Int32Array(1024);
  }

  /** The state with these words, or -1. */
  find(words: Int32Array): number {
    return (this.#table[this.#slot(words)] as number) - 1;
  }

  /** Puts in a state not met before, open; answers its number. */
  add(node: StoredNode): number {
    if (this.count === this.#spent.length) this.#growNodes();
    if (2 * (this.count + 1) > this.#table.length) this.#growTable();
    const number = this.count++;
    this.#words.set(node.words, number * this.#wordCount);
    this.#table[this.#slot(node.words)] = number + 1;
    this.#put(number, node);
    return number;
  }

  /** Replaces the way to a state by a cheaper one and opens it again. */
  improve(number: number, node: StoredNode): void {
    this.#put(number, node);
  }

  wordsOf(number: number): Int32Array {
    return this.#words.subarray(number * this.#wordCount, (number + 1) * this.#wordCount);
  }

  spent(number: number): number {
    return this.#spent[number] as number;
  }

  bound(number: number): number {
    return this.#bounds[number] as number;
  }

  /** Has the dearer bound been worked out for it? */
  isRefined(number: number): boolean {
    return this.#refined[number] === 1;
  }

  /** Raises its bound by the dearer one. */
  refine(number: number, bound: number): void {
    this.#refined[number] = 1;
    this.#bounds[number] = Math.max(this.#bounds[number] as number, bound);
  }

  isOpen(number: number): boolean {
    return this.#open[number] === 1;
  }

  reopen(number: number): void {
    this.#open[number] = 1;
  }

  close(number: number): void {
    this.#open[number] = 0;
  }

  /** All actions from the start to this state. */
  plan(number: number): number[] {
    const parts: (readonly number[])[] = [];
    for (let at = number; at >= 0; at = this.#parents[at] as number) parts.push(this.#steps[at] as readonly number[]);
    return parts.reverse().flat();
  }

  #put(number: number, node: StoredNode): void {
    this.#spent[number] = node.spent;
    this.#bounds[number] = node.bound;
    this.#parents[number] = node.parent;
    this.#steps[number] = node.steps;
    this.#open[number] = 1;
    this.#refined[number] = 0;
  }

  #slot(words: Int32Array): number {
    const mask = this.#table.length - 1;
    let hash = 0x811c9dc5;
    for (const word of words) {
      hash = Math.imul(hash ^ word, 0x9e3779b1);
      hash ^= hash >>> 15;
    }
    let slot = hash & mask;
    for (;;) {
      const entry = this.#table[slot] as number;
      if (entry === 0 || this.#equals(entry - 1, words)) return slot;
      slot = (slot + 1) & mask;
    }
  }

  #equals(number: number, words: Int32Array): boolean {
    const offset = number * this.#wordCount;
    for (let word = 0; word < this.#wordCount; word++) if (this.#words[offset + word] !== words[word]) return false;
    return true;
  }

  #growNodes(): void {
    const capacity = 2 * this.#spent.length;
    const grown = <T extends Int32Array | Float64Array | Uint8Array>(old: T, next: T): T => {
      next.set(old);
      return next;
    };
    this.#words = grown(this.#words, new Int32Array(capacity * this.#wordCount));
    this.#spent = grown(this.#spent, new Float64Array(capacity));
    this.#bounds = grown(this.#bounds, new Float64Array(capacity));
    this.#parents = grown(this.#parents, new Int32Array(capacity));
    this.#refined = grown(this.#refined, new Uint8Array(capacity));
    this.#open = grown(this.#open, new Uint8Array(capacity));
  }

  #growTable(): void {
    this.#table = new Int32Array(2 * this.#table.length);
    for (let number = 0; number < this.count; number++) this.#table[this.#slot(this.wordsOf(number))] = number + 1;
  }
}
