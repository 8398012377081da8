/** A state's numbers besides its facts. */
export interface NodeValues {
  readonly hands: number;
  readonly level: number;
  readonly steps: number;
  readonly milliseconds: number;
  readonly parent: number;
  /** Local action that led here; -1 for the root. */
  readonly action: number;
}

const mix = (hash: number, value: number): number => {
  const mixed = Math.imul(hash ^ value, 0x9e3779b1);
  return mixed ^ (mixed >>> 15);
};

/**
 * Which states were met, by which path, at which price? Facts, hands and level identify a state; a table finds it again.
 * Arrays grow by doubling.
 */
export class NodeStore {
  readonly words: number;
  count = 0;
  facts: Int32Array;
  hands: Int32Array;
  level: Int32Array;
  steps: Int32Array;
  milliseconds: Float64Array;
  parent: Int32Array;
  action: Int32Array;
  /** The key under which the node last stood in the queue. */
  key: Float64Array;
  private slots: Int32Array;

  constructor(words: number, capacity = 256) {
    this.words = words;
    this.facts = new Int32Array(capacity * words);
    this.hands = new Int32Array(capacity);
    this.level = new Int32Array(capacity);
    this.steps = new Int32Array(capacity);
    this.milliseconds = new Float64Array(capacity);
    this.parent = new Int32Array(capacity);
    this.action = new Int32Array(capacity);
    this.key = new Float64Array(capacity);
    this.slots = new Int32Array(capacity * 4).fill(-1);
  }

  /** Adds a link of a path that is no state of its own, such as an action done at once. */
  link(parent: number, action: number): number {
    if (this.count === this.hands.length) this.grow();
    const node = this.count++;
    this.parent[node] = parent;
    this.action[node] = action;
    return node;
  }

  /** Gives a known state a better price and path. */
  write(node: number, values: NodeValues): void {
    this.steps[node] = values.steps;
    this.milliseconds[node] = values.milliseconds;
    this.parent[node] = values.parent;
    this.action[node] = values.action;
  }

  /** Where does this state stand? Its node, or minus one minus the free slot it would take. */
  find(facts: Int32Array, hands: number, level: number): number {
    const mask = this.slots.length - 1;
    for (let slot = this.hash(facts, hands, level) & mask; ; slot = (slot + 1) & mask) {
      const node = this.slots[slot] ?? -1;
      if (node < 0) return -1 - slot;
      if (this.hands[node] === hands && this.level[node] === level && this.sameFacts(node, facts)) return node;
    }
  }

  /** Enters a state not yet in the table. */
  add(facts: Int32Array, values: NodeValues): number {
    const node = this.link(values.parent, values.action);
    this.facts.set(facts, node * this.words);
    this.hands[node] = values.hands;
    this.level[node] = values.level;
    this.write(node, values);
    if (this.count * 2 > this.slots.length) this.rehash();
    const place = this.find(facts, values.hands, values.level);
    if (place < 0) this.slots[-1 - place] = node;
    return node;
  }

  /** The local actions that led to a node, in order. */
  path(node: number): number[] {
    const actions: number[] = [];
    for (let at = node; at >= 0; at = this.parent[at] ?? -1) {
      const action = this.action[at] ?? -1;
      if (action >= 0) actions.push(action);
    }
    return actions.reverse();
  }

  private sameFacts(node: number, facts: Int32Array): boolean {
    const base = node * this.words;
    for (let word = 0; word < this.words; word++) if (this.facts[base + word] !== facts[word]) return false;
    return true;
  }

  private hash(facts: Int32Array, hands: number, level: number): number {
    let hash = mix(hands, level + 0x51);
    for (let word = 0; word < this.words; word++) hash = mix(hash, facts[word] ?? 0);
    return hash >>> 0;
  }

  private rehash(): void {
    const entered = this.slots.filter((node) => node >= 0).sort();
    this.slots = new Int32Array(this.slots.length * 2).fill(-1);
    for (const node of entered) {
      const facts = this.facts.subarray(node * this.words, (node + 1) * this.words);
      const place = this.find(facts, this.hands[node] ?? 0, this.level[node] ?? 0);
      if (place < 0) this.slots[-1 - place] = node;
    }
  }

  private grow(): void {
    const capacity = this.hands.length * 2;
    const ints = (old: Int32Array, size: number): Int32Array => {
      const next = new Int32Array(size);
      next.set(old);
      return next;
    };
    const floats = (old: Float64Array): Float64Array => {
      const next = new Float64Array(capacity);
      next.set(old);
      return next;
    };
    this.facts = ints(this.facts, capacity * this.words);
    this.hands = ints(this.hands, capacity);
    this.level = ints(this.level, capacity);
    this.steps = ints(this.steps, capacity);
    this.milliseconds = floats(this.milliseconds);
    this.parent = ints(this.parent, capacity);
    this.action = ints(this.action, capacity);
    this.key = floats(this.key);
  }
}
