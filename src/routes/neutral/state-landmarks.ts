import { clearBit, countBits, hasBit } from './bit-set.ts';
import type { ReducedState } from './reduced-state.ts';
import type { SearchSpace } from './search-space.ts';

/**
 * Which facts must every plan from here make true, and which before which? Greatest fixpoint of
 * landmarks(fact) = intersection over its givers of (facts given + landmarks of all needs), which finds every landmark
 * of the problem without tools (Keyder, Richter, Helmert, ECAI 2010).
 */
export class StateLandmarks {
  readonly #space: SearchSpace;
  readonly #state: ReducedState;
  /** Facts that hold by the time a fact first holds, one row a fact; rows of facts not missing are stale. */
  readonly ofFact: Int32Array;
  /** Facts that hold strictly before an action can be done, one row an action; rows of actions not of use are stale. */
  readonly before: Int32Array;
  /** Facts that every plan makes true. */
  readonly required: Int32Array;

  constructor(state: ReducedState) {
    const { space } = state;
    this.#space = space;
    this.#state = state;
    this.ofFact = new Int32Array(space.factCount * space.factWords);
    this.before = new Int32Array(space.actionCount * space.factWords);
    this.required = new Int32Array(space.factWords);
  }

  /** Computes everything for the state as it stands, which has been simplified. */
  compute(): void {
    const { space } = { space: this.#space };
    const { factWords, factCount } = space;
    const { missing, order, orderLength } = this.#state;
    for (let fact = 0; fact < factCount; fact++) if (hasBit(missing, fact)) this.ofFact.set(missing, fact * factWords);
    let changed = true;
    while (changed) {
      changed = false;
      for (let at = 0; at < orderLength; at++) {
        const action = order[at] as number;
        this.#gather(action);
        if (this.#narrow(action)) changed = true;
      }
    }
    this.required.fill(0);
    for (const fact of space.target) {
      if (!hasBit(missing, fact)) continue;
      for (let word = 0; word < factWords; word++)
        this.required[word] = (this.required[word] as number) | (this.ofFact[fact * factWords + word] as number);
    }
  }

  #gather(action: number): void {
    const { needs, factWords } = this.#space;
    const row = action * factWords;
    for (let word = 0; word < factWords; word++) this.before[row + word] = 0;
    for (let n = needs.from[action] as number; n < (needs.from[action + 1] as number); n++) {
      const fact = needs.items[n] as number;
      if (!hasBit(this.#state.missing, fact)) continue;
      for (let word = 0; word < factWords; word++)
        this.before[row + word] =
          (this.before[row + word] as number) | (this.ofFact[fact * factWords + word] as number);
    }
  }

  #narrow(action: number): boolean {
    const { gives, giveBits, factWords } = this.#space;
    const row = action * factWords;
    let changed = false;
    for (let g = gives.from[action] as number; g < (gives.from[action + 1] as number); g++) {
      const fact = gives.items[g] as number;
      if (!hasBit(this.#state.missing, fact)) continue;
      for (let word = 0; word < factWords; word++) {
        const old = this.ofFact[fact * factWords + word] as number;
        const now = old & ((this.before[row + word] as number) | (giveBits[row + word] as number));
        if (now === old) continue;
        this.ofFact[fact * factWords + word] = now;
        changed = true;
      }
    }
    return changed;
  }

  /** Takes out actions that can never be the first to give anything. Answers whether there were any. */
  dropNeverFirst(): boolean {
    const { order, orderLength, useful } = this.#state;
    let dropped = false;
    for (let at = 0; at < orderLength; at++) {
      const action = order[at] as number;
      if (this.#space.removable[action] !== 1) continue;
      if (!this.#state.givesWithin(action, this.before, action * this.#space.factWords)) continue;
      clearBit(useful, action);
      dropped = true;
    }
    return dropped;
  }

  /** Can this action be the first to give this fact? */
  canBeFirst(action: number, fact: number): boolean {
    return !hasBit(this.before, fact, action * this.#space.factWords);
  }

  /**
   * Is it optimal to do this movable action before anything else, given that its tool is in hand? Yes when it is free, or
   * when it gives a required fact and every other action that could first give that fact is movable, costs as much or
   * more and gives nothing else that is missing: that one can then be swapped for this one, moved to the front.
   */
  isForced(action: number): boolean {
    const { cost, gives } = this.#space;
    if (cost[action] === 0) return true;
    for (let g = gives.from[action] as number; g < (gives.from[action + 1] as number); g++) {
      const fact = gives.items[g] as number;
      if (!hasBit(this.#state.missing, fact) || !hasBit(this.required, fact)) continue;
      if (this.#isBestGiver(action, fact)) return true;
    }
    return false;
  }

  #isBestGiver(action: number, fact: number): boolean {
    const { cost, givers, giveBits, factWords, movable } = this.#space;
    for (let g = givers.from[fact] as number; g < (givers.from[fact + 1] as number); g++) {
      const other = givers.items[g] as number;
      if (other === action || !hasBit(this.#state.useful, other) || !this.canBeFirst(other, fact)) continue;
      if (movable[other] !== 1 || (cost[other] as number) < (cost[action] as number)) return false;
      if (!this.#state.givesWithin(other, giveBits, action * factWords)) return false;
    }
    return true;
  }

  /** How many facts must every plan still make true? */
  get requiredCount(): number {
    return countBits(this.required);
  }
}
