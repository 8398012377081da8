import { hasBit } from './bit-set.ts';
import type { ReducedState } from './reduced-state.ts';
import type { SearchSpace } from './search-space.ts';
import type { StateLandmarks } from './state-landmarks.ts';

/**
 * What must be paid at least for taking tools up again? Along a chain of required facts, each before the next, a tool
 * that alone gives two of them must be taken up twice when a fact between can't be given with that tool in hand.
 * Landmark-cut counts one pick-up a tool, so this sum may be added to it: docs/method/neutral-problem.md, "Repeats".
 */
export class PickupRepeats {
  readonly #space: SearchSpace;
  readonly #state: ReducedState;
  readonly #landmarks: StateLandmarks;
  readonly #chain: Int32Array;
  readonly #rank: Int32Array;
  /** For each required fact, one strictly-before row. */
  readonly #before: Int32Array;
  /** The only tool that gives a fact; 0: several. */
  readonly #only: Int32Array;
  /** Tools that may be in hand when a fact is first given: 1 each, one row a fact. */
  readonly #may: Uint8Array;
  readonly #withTool: Int32Array;
  readonly #without: Int32Array;
  readonly #inChain: Int32Array;

  constructor(state: ReducedState, landmarks: StateLandmarks) {
    const { space } = state;
    this.#space = space;
    this.#state = state;
    this.#landmarks = landmarks;
    const { factCount, factWords, toolCount } = space;
    this.#chain = new Int32Array(factCount);
    this.#rank = new Int32Array(factCount);
    this.#before = new Int32Array(factCount * factWords);
    this.#only = new Int32Array(factCount);
    this.#may = new Uint8Array(factCount * (toolCount + 1));
    this.#withTool = new Int32Array(factCount);
    this.#without = new Int32Array(factCount);
    this.#inChain = new Int32Array(toolCount + 1);
  }

  /** The least extra cost [ms], for landmarks already computed. */
  bound(): number {
    const length = this.#orderRequired();
    let extra = 0;
    for (let tool = 1; tool <= this.#space.toolCount; tool++) {
      const price = this.#space.repeatPickup[tool] as number;
      if (price === 0 || (this.#inChain[tool] as number) === 0) continue;
      if ((this.#inChain[tool] as number) < 2 && this.#state.hand !== tool) continue;
      const counted = this.#state.hand === tool ? 0 : 1;
      extra += Math.max(0, this.#pickups(tool, length) - counted) * price;
    }
    return extra;
  }

  /** Lists the required facts so that what comes before stands before; answers how many. */
  #orderRequired(): number {
    const { factCount } = this.#space;
    const { required } = this.#landmarks;
    this.#inChain.fill(0);
    let length = 0;
    for (let fact = 0; fact < factCount; fact++) {
      if (!hasBit(required, fact) || !hasBit(this.#state.missing, fact)) continue;
      this.#describe(fact);
      const only = this.#only[fact] as number;
      if (only > 0) this.#inChain[only] = (this.#inChain[only] as number) + 1;
      let at = length++;
      const rank = this.#rank[fact] as number;
      for (; at > 0 && (this.#rank[this.#chain[at - 1] as number] as number) > rank; at--)
        this.#chain[at] = this.#chain[at - 1] as number;
      this.#chain[at] = fact;
    }
    return length;
  }

  /** Strictly-before facts, and the tools with which the fact can first be given. */
  #describe(fact: number): void {
    const { givers, factWords, toolCount, startTool, endTool } = this.#space;
    const row = fact * factWords;
    const tools = fact * (toolCount + 1);
    this.#may.fill(0, tools, tools + toolCount + 1);
    for (let word = 0; word < factWords; word++) this.#before[row + word] = -1;
    let only = -1;
    for (let g = givers.from[fact] as number; g < (givers.from[fact + 1] as number); g++) {
      const action = givers.items[g] as number;
      if (!hasBit(this.#state.useful, action) || !this.#landmarks.canBeFirst(action, fact)) continue;
      for (let word = 0; word < factWords; word++)
        this.#before[row + word] =
          (this.#before[row + word] as number) & (this.#landmarks.before[action * factWords + word] as number);
      const tool = startTool[action] as number;
      if (tool === 0 || tool !== endTool[action]) this.#may.fill(1, tools, tools + toolCount + 1);
      this.#may[tools + tool] = 1;
      only = tool !== 0 && tool === endTool[action] && (only === -1 || only === tool) ? tool : 0;
    }
    this.#only[fact] = only;
    this.#rank[fact] = this.#countBefore(row);
  }

  #countBefore(row: number): number {
    let count = 0;
    for (let word = 0; word < this.#space.factWords; word++)
      for (let bits = this.#before[row + word] as number; bits !== 0; bits &= bits - 1) count++;
    return count;
  }

  /** The most times a tool must be taken up along one chain. Values are pick-ups so far + 1; 0 is "can't be". */
  #pickups(tool: number, length: number): number {
    const { factWords, toolCount } = this.#space;
    const held = this.#state.hand === tool;
    let most = 1;
    for (let at = 0; at < length; at++) {
      const fact = this.#chain[at] as number;
      this.#withTool[fact] = 0;
      this.#without[fact] = 0;
      const must = this.#only[fact] === tool;
      if (!must && this.#may[fact * (toolCount + 1) + tool] === 1) continue;
      let withTool = held ? 1 : 0;
      let without = held ? 0 : 1;
      const row = fact * factWords;
      for (let earlier = 0; earlier < at; earlier++) {
        const other = this.#chain[earlier] as number;
        if (!hasBit(this.#before, other, row)) continue;
        withTool = Math.max(withTool, this.#withTool[other] as number);
        without = Math.max(without, this.#without[other] as number);
      }
      if (must) this.#withTool[fact] = Math.max(withTool, without === 0 ? 0 : without + 1);
      else this.#without[fact] = Math.max(withTool, without);
      most = Math.max(most, this.#withTool[fact] as number, this.#without[fact] as number);
    }
    return most - 1;
  }
}
