import { hasBit, listBits } from './bit-set.ts';
import { MinHeap } from './min-heap.ts';
import type { ReducedState } from './reduced-state.ts';
import type { SearchSpace } from './search-space.ts';

/** Phases of one tool: even, not in hand; odd, in hand; in the last one anything goes. */
const PHASES = 6;
const OUT_OF_USE = 1 << 28;
const NO_SUPPORTER = -2;
/** Bits of an action's phases: with the tool it counts for, with another, with bare hands. */
const WITH = 0b101010;
const WITHOUT = 0b110101;
const ANY = 0b111111;

/**
 * What must be paid at least for taking tools up again, out of the costs that landmark-cut has left over? One tool after
 * the other, landmark-cut again on pairs (fact, phase of that tool), where the phase counts how often it was taken up: a
 * fact won with the tool in hand needs the right phase, and going on to the next even phase costs another pick-up. An
 * action's cost is shared by its copies in all phases. See docs/method/neutral-problem.md, "Repeats".
 */
export class RepeatCut {
  readonly #space: SearchSpace;
  readonly #state: ReducedState;
  readonly #facts: number;
  readonly #factCost: Float64Array;
  readonly #unsatisfied: Int32Array;
  readonly #supporter: Int32Array;
  readonly #supporterCost: Float64Array;
  readonly #zone: Uint8Array;
  readonly #seen: Uint8Array;
  readonly #stack: Int32Array;
  readonly #heap = new MinHeap(1024);
  readonly #phases: Uint8Array;
  readonly #pickup = new Float64Array(PHASES);
  readonly #cut: Int32Array;
  readonly #inCut: Uint8Array;
  readonly #list: Int32Array;
  readonly #isTarget: Uint8Array;
  /** Phase and fact of each pair; action of each copy and the pair row of its phase. */
  readonly #phaseOf: Uint8Array;
  readonly #factOf: Int32Array;
  readonly #actionOf: Int32Array;
  readonly #rowOf: Int32Array;
  readonly #open: Int32Array;
  readonly #rootless: Int32Array;
  #rootlessCount = 0;
  #actions = 0;
  #cutLength = 0;
  #cutPickups = 0;
  #depth = 0;
  #left: Float64Array = new Float64Array(0);

  constructor(state: ReducedState) {
    const { space } = state;
    this.#space = space;
    this.#state = state;
    // One more fact than there are: "this phase is reached".
    this.#facts = space.factCount + 1;
    const pairs = this.#facts * PHASES;
    const copies = (space.actionCount + 1) * PHASES;
    this.#factCost = new Float64Array(pairs + 1);
    this.#unsatisfied = new Int32Array(copies);
    this.#supporter = new Int32Array(copies);
    this.#supporterCost = new Float64Array(copies);
    this.#zone = new Uint8Array(pairs + 1);
    this.#seen = new Uint8Array(pairs + 1);
    this.#stack = new Int32Array(pairs + 1);
    this.#phases = new Uint8Array(space.actionCount + 1);
    this.#cut = new Int32Array(space.actionCount);
    this.#inCut = new Uint8Array(space.actionCount);
    this.#list = new Int32Array(space.actionWords * 32);
    this.#phaseOf = Uint8Array.from({ length: pairs }, (_, pair) => Math.floor(pair / this.#facts));
    this.#factOf = Int32Array.from({ length: pairs }, (_, pair) => pair % this.#facts);
    this.#actionOf = Int32Array.from({ length: copies }, (_, copy) => copy % (space.actionCount + 1));
    this.#rowOf = Int32Array.from(
      { length: copies },
      (_, copy) => Math.floor(copy / (space.actionCount + 1)) * this.#facts,
    );
    this.#open = new Int32Array(space.actionCount);
    this.#rootless = new Int32Array(space.actionCount);
    this.#isTarget = new Uint8Array(space.factCount);
    for (const fact of space.target) this.#isTarget[fact] = 1;
  }

  /** The least extra cost [ms] over all tools. Takes what it counts out of `left` (operators as in `LandmarkCut`). */
  bound(left: Float64Array): number {
    const { toolCount, repeatPickup, startTool } = this.#space;
    this.#left = left;
    this.#actions = listBits(this.#state.useful, this.#list);
    this.#rootlessCount = 0;
    let used = 0;
    for (let at = 0; at < this.#actions; at++) {
      const action = this.#list[at] as number;
      const open = this.#countMissing(action);
      this.#open[action] = Math.max(1, open);
      if (open === 0) this.#rootless[this.#rootlessCount++] = action;
      used |= 1 << ((startTool[action] as number) & 31);
    }
    let total = 0;
    for (let tool = 1; tool <= toolCount; tool++)
      if ((used & (1 << (tool & 31))) !== 0 && (repeatPickup[tool] as number) > 0) total += this.#boundOf(tool);
    return total;
  }

  #boundOf(tool: number): number {
    const end = this.#facts * PHASES;
    this.#explore(tool);
    let total = 0;
    while ((this.#factCost[end] as number) > 0 && this.#factCost[end] !== Number.POSITIVE_INFINITY) {
      this.#markZone();
      this.#findCut();
      let cost = Number.POSITIVE_INFINITY;
      for (let at = 0; at < this.#cutLength; at++) cost = Math.min(cost, this.#left[this.#cut[at] as number] as number);
      for (let phase = 0; phase < PHASES; phase += 2)
        if ((this.#cutPickups & (1 << phase)) !== 0) cost = Math.min(cost, this.#pickup[phase] as number);
      total += cost;
      for (let at = 0; at < this.#cutLength; at++) {
        const action = this.#cut[at] as number;
        this.#left[action] = (this.#left[action] as number) - cost;
      }
      for (let phase = 0; phase < PHASES; phase += 2)
        if ((this.#cutPickups & (1 << phase)) !== 0) this.#pickup[phase] = (this.#pickup[phase] as number) - cost;
      this.#exploreAgain();
    }
    // What is left of the first pick-up is spent for good.
    if (this.#state.hand !== tool) this.#left[this.#space.actionCount + tool] = this.#pickup[0] as number;
    return total;
  }

  #prepare(tool: number): number {
    const { actionCount, factCount, startTool, repeatPickup } = this.#space;
    const { missing, hand } = this.#state;
    const start = hand === tool ? 1 : 0;
    this.#pickup.fill(repeatPickup[tool] as number);
    this.#pickup[0] = this.#left[actionCount + tool] as number;
    this.#factCost.fill(Number.POSITIVE_INFINITY);
    this.#supporter.fill(NO_SUPPORTER);
    this.#unsatisfied.fill(OUT_OF_USE);
    for (let at = 0; at < this.#actions; at++) {
      const action = this.#list[at] as number;
      const with_ = startTool[action] as number;
      this.#phases[action] = with_ === 0 ? ANY : with_ === tool ? WITH : WITHOUT;
      const open = this.#open[action] as number;
      for (let phase = start; phase < PHASES; phase++)
        if (((this.#phases[action] as number) & (1 << phase)) !== 0)
          this.#unsatisfied[phase * (actionCount + 1) + action] = open;
    }
    let targets = 0;
    for (const fact of this.#space.target) if (hasBit(missing, fact)) targets++;
    for (let phase = start; phase < PHASES; phase++)
      this.#unsatisfied[phase * (actionCount + 1) + actionCount] = targets;
    this.#reach(start * this.#facts + factCount, 0);
    return start;
  }

  #countMissing(action: number): number {
    const { needs } = this.#space;
    let count = 0;
    for (let n = needs.from[action] as number; n < (needs.from[action + 1] as number); n++)
      if (hasBit(this.#state.missing, needs.items[n] as number)) count++;
    return count;
  }

  #reach(pair: number, cost: number): void {
    if (cost >= (this.#factCost[pair] as number)) return;
    this.#factCost[pair] = cost;
    this.#heap.push(cost, 0, pair);
  }

  #reachEffects(copy: number, cost: number): void {
    const { actionCount, gives } = this.#space;
    const action = this.#actionOf[copy] as number;
    if (action === actionCount) {
      this.#reach(this.#facts * PHASES, cost);
      return;
    }
    const row = this.#rowOf[copy] as number;
    for (let g = gives.from[action] as number; g < (gives.from[action + 1] as number); g++) {
      const fact = gives.items[g] as number;
      if (hasBit(this.#state.missing, fact)) this.#reach(row + fact, cost);
    }
  }

  #explore(tool: number): void {
    this.#prepare(tool);
    const heap = this.#heap;
    while (heap.size > 0) {
      const pair = heap.pop();
      const cost = heap.poppedKey;
      if (cost > (this.#factCost[pair] as number) || pair === this.#facts * PHASES) continue;
      this.#carry(pair, cost);
      this.#satisfy(pair, cost);
    }
  }

  /** What holds in a phase holds in the next, for the price of getting there. */
  #carry(pair: number, cost: number): void {
    const phase = this.#phaseOf[pair] as number;
    if (phase + 1 >= PHASES) return;
    this.#reach(pair + this.#facts, (phase & 1) === 1 ? cost : cost + (this.#pickup[phase] as number));
  }

  #satisfy(pair: number, cost: number): void {
    const { factCount, actionCount, needers } = this.#space;
    const phase = this.#phaseOf[pair] as number;
    const fact = this.#factOf[pair] as number;
    const row = phase * (actionCount + 1);
    if (fact === factCount) {
      for (let at = 0; at < this.#rootlessCount; at++)
        this.#satisfyOne(row + (this.#rootless[at] as number), pair, cost);
      return;
    }
    for (let n = needers.from[fact] as number; n < (needers.from[fact + 1] as number); n++)
      this.#satisfyOne(row + (needers.items[n] as number), pair, cost);
    if (this.#isTarget[fact] === 1) this.#satisfyOne(row + actionCount, pair, cost);
  }

  #satisfyOne(copy: number, pair: number, cost: number): void {
    const open = (this.#unsatisfied[copy] as number) - 1;
    this.#unsatisfied[copy] = open;
    if (open !== 0) return;
    this.#supporter[copy] = pair;
    this.#supporterCost[copy] = cost;
    this.#reachEffects(copy, cost + this.#costOf(copy));
  }

  #costOf(copy: number): number {
    const { actionCount } = this.#space;
    const action = this.#actionOf[copy] as number;
    return action === actionCount ? 0 : (this.#left[action] as number);
  }

  #markZone(): void {
    const { actionCount, factCount, givers } = this.#space;
    const zone = this.#zone.fill(0);
    this.#depth = 0;
    zone[this.#facts * PHASES] = 1;
    for (let phase = 0; phase < PHASES; phase++) this.#markSupporter(phase * (actionCount + 1) + actionCount);
    while (this.#depth > 0) {
      const pair = this.#stack[--this.#depth] as number;
      const phase = this.#phaseOf[pair] as number;
      const fact = this.#factOf[pair] as number;
      if (phase > 0 && ((phase & 1) === 0 || this.#pickup[phase - 1] === 0)) this.#mark(pair - this.#facts);
      if (fact === factCount) continue;
      const row = phase * (actionCount + 1);
      for (let g = givers.from[fact] as number; g < (givers.from[fact + 1] as number); g++)
        this.#markSupporter(row + (givers.items[g] as number));
    }
  }

  #markSupporter(copy: number): void {
    if (this.#unsatisfied[copy] !== 0 || this.#costOf(copy) !== 0) return;
    this.#mark(this.#supporter[copy] as number);
  }

  #mark(pair: number): void {
    if (this.#zone[pair] === 1 || this.#factCost[pair] === Number.POSITIVE_INFINITY) return;
    this.#zone[pair] = 1;
    this.#stack[this.#depth++] = pair;
  }

  #findCut(): void {
    const { factCount } = this.#space;
    this.#seen.fill(0);
    this.#cutLength = 0;
    this.#cutPickups = 0;
    this.#depth = 0;
    this.#visit((this.#state.hand !== 0 && this.#startsHeld ? 1 : 0) * this.#facts + factCount);
    while (this.#depth > 0) this.#crossFrom(this.#stack[--this.#depth] as number);
    for (let at = 0; at < this.#cutLength; at++) this.#inCut[this.#cut[at] as number] = 0;
  }

  get #startsHeld(): boolean {
    return this.#factCost[this.#space.factCount] === Number.POSITIVE_INFINITY;
  }

  #visit(pair: number): void {
    if (this.#seen[pair] === 1) return;
    this.#seen[pair] = 1;
    this.#stack[this.#depth++] = pair;
  }

  #crossFrom(pair: number): void {
    const { factCount, actionCount, needers } = this.#space;
    const phase = this.#phaseOf[pair] as number;
    const fact = this.#factOf[pair] as number;
    if (phase + 1 < PHASES) {
      if (this.#zone[pair + this.#facts] !== 1) this.#visit(pair + this.#facts);
      else this.#cutPickups |= 1 << phase;
    }
    const row = phase * (actionCount + 1);
    if (fact === factCount) {
      for (let at = 0; at < this.#rootlessCount; at++) this.#cross(row + (this.#rootless[at] as number), pair);
      return;
    }
    for (let n = needers.from[fact] as number; n < (needers.from[fact + 1] as number); n++)
      this.#cross(row + (needers.items[n] as number), pair);
  }

  #cross(copy: number, pair: number): void {
    if (this.#supporter[copy] !== pair) return;
    const { actionCount, gives } = this.#space;
    const action = this.#actionOf[copy] as number;
    const row = this.#rowOf[copy] as number;
    const end = gives.from[action + 1] as number;
    for (let g = gives.from[action] as number; g < end; g++) {
      if (this.#zone[row + (gives.items[g] as number)] !== 1) continue;
      if (this.#inCut[action] === 0) this.#cut[this.#cutLength++] = action;
      this.#inCut[action] = 1;
      return;
    }
    for (let g = gives.from[action] as number; g < end; g++) {
      const fact = gives.items[g] as number;
      if (hasBit(this.#state.missing, fact)) this.#visit(row + fact);
    }
  }

  #exploreAgain(): void {
    const { actionCount, factCount, needers } = this.#space;
    for (let at = 0; at < this.#cutLength; at++)
      for (let phase = 0; phase < PHASES; phase++) {
        const copy = phase * (actionCount + 1) + (this.#cut[at] as number);
        if (this.#unsatisfied[copy] === 0)
          this.#reachEffects(copy, (this.#supporterCost[copy] as number) + this.#costOf(copy));
      }
    for (let phase = 0; phase < PHASES; phase += 2)
      if ((this.#cutPickups & (1 << phase)) !== 0)
        for (let fact = 0; fact <= factCount; fact++) {
          const cost = this.#factCost[phase * this.#facts + fact] as number;
          if (cost !== Number.POSITIVE_INFINITY) this.#carry(phase * this.#facts + fact, cost);
        }
    const heap = this.#heap;
    while (heap.size > 0) {
      const pair = heap.pop();
      const cost = heap.poppedKey;
      if (cost > (this.#factCost[pair] as number) || pair === this.#facts * PHASES) continue;
      this.#carry(pair, cost);
      const fact = this.#factOf[pair] as number;
      const row = (this.#phaseOf[pair] as number) * (actionCount + 1);
      if (fact === factCount) {
        for (let at = 0; at < this.#rootlessCount; at++)
          this.#lower(row + (this.#rootless[at] as number), pair, cost);
        continue;
      }
      for (let n = needers.from[fact] as number; n < (needers.from[fact + 1] as number); n++)
        this.#lower(row + (needers.items[n] as number), pair, cost);
      this.#lower(row + actionCount, pair, cost);
    }
  }

  #lower(copy: number, pair: number, cost: number): void {
    if (this.#supporter[copy] !== pair || (this.#supporterCost[copy] as number) <= cost) return;
    const before = this.#supporterCost[copy] as number;
    this.#chooseSupporter(copy);
    const now = this.#supporterCost[copy] as number;
    if (now < before) this.#reachEffects(copy, now + this.#costOf(copy));
  }

  #chooseSupporter(copy: number): void {
    const { actionCount, needs, target, factCount } = this.#space;
    const action = this.#actionOf[copy] as number;
    const row = this.#rowOf[copy] as number;
    const items = action === actionCount ? target : needs.items;
    const from = action === actionCount ? 0 : (needs.from[action] as number);
    const to = action === actionCount ? target.length : (needs.from[action + 1] as number);
    let best = row + factCount;
    let dearest = -1;
    for (let at = from; at < to; at++) {
      const fact = items[at] as number;
      if (!hasBit(this.#state.missing, fact)) continue;
      const cost = this.#factCost[row + fact] as number;
      if (cost <= dearest) continue;
      dearest = cost;
      best = row + fact;
    }
    this.#supporter[copy] = best;
    this.#supporterCost[copy] = dearest < 0 ? (this.#factCost[best] as number) : dearest;
  }
}
