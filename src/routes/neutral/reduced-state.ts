import { clearBit, hasBit, listBits, setBit } from './bit-set.ts';
import type { SearchSpace } from './search-space.ts';

/**
 * What is left to do from a state? Holds the facts still missing, the actions still of use and the tool in hand, and
 * cuts them down without changing the least cost to the target: see docs/method/neutral-problem.md, "Reductions".
 */
export class ReducedState {
  readonly space: SearchSpace;
  /** Facts that do not hold yet and that the target or an action of use needs. */
  readonly missing: Int32Array;
  /** Actions that some plan worth looking at may still take. */
  readonly useful: Int32Array;
  hand = 0;
  /** The actions of use in an order in which each can be done, were all done and every tool at hand. */
  readonly order: Int32Array;
  orderLength = 0;
  readonly #unsatisfied: Int32Array;
  readonly #reached: Int32Array;
  readonly #wanted: Int32Array;
  readonly #marked: Int32Array;
  readonly #stack: Int32Array;
  readonly #list: Int32Array;
  #depth = 0;

  constructor(space: SearchSpace) {
    this.space = space;
    this.missing = new Int32Array(space.factWords);
    this.useful = new Int32Array(space.actionWords);
    this.order = new Int32Array(space.actionCount);
    this.#unsatisfied = new Int32Array(space.actionCount);
    this.#reached = new Int32Array(space.factWords);
    this.#wanted = new Int32Array(space.factWords);
    this.#marked = new Int32Array(space.actionWords);
    this.#stack = new Int32Array(space.factCount);
    this.#list = new Int32Array(space.actionWords * 32);
  }

  /** Starts from nothing: every fact missing, every action of use, nothing in hand. */
  loadStart(): void {
    for (let fact = 0; fact < this.space.factCount; fact++) setBit(this.missing, fact);
    for (let action = 0; action < this.space.actionCount; action++) setBit(this.useful, action);
    this.hand = 0;
  }

  /** Do all target facts hold? */
  get reachedTarget(): boolean {
    for (const fact of this.space.target) if (hasBit(this.missing, fact)) return false;
    return true;
  }

  /** Can this action be done now, whatever tool it takes? */
  isApplicable(action: number): boolean {
    const { needBits, factWords } = this.space;
    const row = action * factWords;
    for (let word = 0; word < factWords; word++)
      if (((needBits[row + word] as number) & (this.missing[word] as number)) !== 0) return false;
    return true;
  }

  /** Makes an action's facts true and takes the action out, unless it may serve again as a bridge. The tool in hand is left to the caller. */
  apply(action: number): void {
    const { giveBits, factWords } = this.space;
    const row = action * factWords;
    for (let word = 0; word < factWords; word++)
      this.missing[word] = (this.missing[word] as number) & ~(giveBits[row + word] as number);
    if (this.space.removable[action] === 1) clearBit(this.useful, action);
  }

  /** Cuts down to what can be reached and is wanted, without rivalled actions. Answers false when the target is out of reach. */
  simplify(): boolean {
    do {
      if (!this.#keepReachable()) return false;
      this.#keepWanted();
    } while (this.#dropRivalled());
    return true;
  }

  /** Does an action give, of the missing facts, only ones among these? `offset`: where the other set starts. */
  givesWithin(action: number, words: Int32Array, offset: number): boolean {
    const { giveBits, factWords } = this.space;
    const row = action * factWords;
    for (let word = 0; word < factWords; word++) {
      const gives = (giveBits[row + word] as number) & (this.missing[word] as number);
      if ((gives & ~(words[offset + word] as number)) !== 0) return false;
    }
    return true;
  }

  #keepReachable(): boolean {
    const { gives, needers } = this.space;
    const unsatisfied = this.#unsatisfied;
    const reached = this.#reached.fill(0);
    let length = this.#startOrder();
    for (let at = 0; at < length; at++) {
      const action = this.order[at] as number;
      for (let g = gives.from[action] as number; g < (gives.from[action + 1] as number); g++) {
        const fact = gives.items[g] as number;
        if (!hasBit(this.missing, fact) || hasBit(reached, fact)) continue;
        setBit(reached, fact);
        for (let n = needers.from[fact] as number; n < (needers.from[fact + 1] as number); n++) {
          const next = needers.items[n] as number;
          if (!hasBit(this.useful, next)) continue;
          unsatisfied[next] = (unsatisfied[next] as number) - 1;
          if (unsatisfied[next] === 0) this.order[length++] = next;
        }
      }
    }
    this.orderLength = length;
    for (const fact of this.space.target) if (hasBit(this.missing, fact) && !hasBit(reached, fact)) return false;
    return true;
  }

  #startOrder(): number {
    const { needs } = this.space;
    let length = 0;
    const count = listBits(this.useful, this.#list);
    for (let at = 0; at < count; at++) {
      const action = this.#list[at] as number;
      let open = 0;
      for (let n = needs.from[action] as number; n < (needs.from[action + 1] as number); n++)
        if (hasBit(this.missing, needs.items[n] as number)) open++;
      this.#unsatisfied[action] = open;
      if (open === 0) this.order[length++] = action;
    }
    return length;
  }

  #keepWanted(): void {
    const { givers, target, bridges } = this.space;
    this.#wanted.fill(0);
    this.#marked.fill(0);
    const reachable = this.useful.fill(0);
    for (let at = 0; at < this.orderLength; at++) setBit(reachable, this.order[at] as number);
    this.#depth = 0;
    for (const fact of target) this.#want(fact);
    for (const action of bridges) this.#mark(action);
    while (this.#depth > 0) {
      const fact = this.#stack[--this.#depth] as number;
      for (let g = givers.from[fact] as number; g < (givers.from[fact + 1] as number); g++)
        this.#mark(givers.items[g] as number);
    }
    this.useful.set(this.#marked);
    this.missing.set(this.#wanted);
    this.#filterOrder();
  }

  #want(fact: number): void {
    if (!hasBit(this.missing, fact) || hasBit(this.#wanted, fact)) return;
    setBit(this.#wanted, fact);
    this.#stack[this.#depth++] = fact;
  }

  #mark(action: number): void {
    const { needs } = this.space;
    if (!hasBit(this.useful, action) || hasBit(this.#marked, action)) return;
    setBit(this.#marked, action);
    for (let n = needs.from[action] as number; n < (needs.from[action + 1] as number); n++)
      this.#want(needs.items[n] as number);
  }

  #filterOrder(): void {
    let length = 0;
    for (let at = 0; at < this.orderLength; at++) {
      const action = this.order[at] as number;
      if (hasBit(this.useful, action)) this.order[length++] = action;
    }
    this.orderLength = length;
  }

  #dropRivalled(): boolean {
    const { rivals } = this.space;
    let dropped = false;
    for (let at = 0; at < this.orderLength; at++) {
      const action = this.order[at] as number;
      for (let r = rivals.from[action] as number; r < (rivals.from[action + 1] as number); r++) {
        const rival = rivals.items[r] as number;
        if (!hasBit(this.useful, rival) || !this.#outdoes(rival, action)) continue;
        clearBit(this.useful, action);
        dropped = true;
        break;
      }
    }
    return dropped;
  }

  #outdoes(rival: number, action: number): boolean {
    const { needBits, giveBits, factWords } = this.space;
    const mine = rival * factWords;
    const other = action * factWords;
    for (let word = 0; word < factWords; word++) {
      const missing = this.missing[word] as number;
      const needsMore = (needBits[mine + word] as number) & ~(needBits[other + word] as number);
      const givesLess = (giveBits[other + word] as number) & ~(giveBits[mine + word] as number);
      if (((needsMore | givesLess) & missing) !== 0) return false;
    }
    return true;
  }
}
