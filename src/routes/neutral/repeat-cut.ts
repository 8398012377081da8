// Long because: one bound over the phases of one tool; its parts share the arrays of one state and are read together.
import { CostQueue } from './cost-queue.ts';
import type { OpenWork } from './open-work.ts';
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
 * One class past 300 lines on purpose, as `LandmarkCut` is.
 */
export class RepeatCut {
  readonly #space: SearchSpace;
  readonly #work: OpenWork;
  /** Pair `fact * PHASES + phase`; copy `action * PHASES + phase`. One more fact than there are: "this phase is reached". */
  readonly #factCost: Float64Array;
  readonly #unsatisfied: Int32Array;
  readonly #supporter: Int32Array;
  readonly #supporterCost: Float64Array;
  readonly #zone: Uint8Array;
  readonly #seen: Uint8Array;
  readonly #stack: Int32Array;
  readonly #queue = new CostQueue(1024);
  readonly #pickup = new Float64Array(PHASES);
  readonly #cut: Int32Array;
  readonly #inCut: Uint8Array;
  readonly #rootless: Int32Array;
  #rootlessCount = 0;
  #start = 0;
  #end = 0;
  #cutLength = 0;
  #cutPickups = 0;
  #depth = 0;
  #left: Float64Array = new Float64Array(0);

  constructor(space: SearchSpace, work: OpenWork) {
    this.#space = space;
    this.#work = work;
    const pairs = (space.factCount + 1) * PHASES + 1;
    const copies = (space.actionCount + 1) * PHASES;
    this.#factCost = new Float64Array(pairs);
    this.#unsatisfied = new Int32Array(copies);
    this.#supporter = new Int32Array(copies);
    this.#supporterCost = new Float64Array(copies);
    this.#zone = new Uint8Array(pairs);
    this.#seen = new Uint8Array(pairs);
    this.#stack = new Int32Array(pairs);
    this.#cut = new Int32Array(space.actionCount);
    this.#inCut = new Uint8Array(space.actionCount);
    this.#rootless = new Int32Array(space.actionCount);
  }

  /** The least extra cost [ms] over all tools. Takes what it counts out of `left` (operators as in `LandmarkCut`). */
  bound(left: Float64Array): number {
    const { toolCount, repeatPickup } = this.#space;
    const { users, needs, actionCount, factCount } = this.#work;
    this.#left = left;
    this.#end = (factCount + 1) * PHASES;
    this.#rootlessCount = 0;
    for (let action = 0; action < actionCount; action++)
      if (needs.from[action] === needs.from[action + 1]) this.#rootless[this.#rootlessCount++] = action;
    let total = 0;
    for (let tool = 1; tool <= toolCount; tool++)
      if ((users.from[tool] as number) < (users.from[tool + 1] as number) && (repeatPickup[tool] as number) > 0)
        total += this.#boundOf(tool);
    return total;
  }

  #boundOf(tool: number): number {
    this.#explore(tool);
    let total = 0;
    while ((this.#factCost[this.#end] as number) > 0 && this.#factCost[this.#end] !== Number.POSITIVE_INFINITY) {
      this.#markZone();
      this.#findCut();
      total += this.#pay();
      this.#exploreAgain();
    }
    // What is left of the first pick-up stays for nobody else: no other tool's phases ask for it.
    return total;
  }

  #pay(): number {
    let cost = Number.POSITIVE_INFINITY;
    for (let at = 0; at < this.#cutLength; at++) cost = Math.min(cost, this.#left[this.#cut[at] as number] as number);
    for (let phase = 0; phase < PHASES; phase += 2)
      if ((this.#cutPickups & (1 << phase)) !== 0) cost = Math.min(cost, this.#pickup[phase] as number);
    for (let at = 0; at < this.#cutLength; at++) {
      const action = this.#cut[at] as number;
      this.#left[action] = (this.#left[action] as number) - cost;
    }
    for (let phase = 0; phase < PHASES; phase += 2)
      if ((this.#cutPickups & (1 << phase)) !== 0) this.#pickup[phase] = (this.#pickup[phase] as number) - cost;
    return cost;
  }

  #prepare(tool: number): void {
    const { actionCount, startTool, needs, targetCount, hand, factCount } = this.#work;
    this.#start = hand === tool ? 1 : 0;
    this.#pickup.fill(this.#space.repeatPickup[tool] as number);
    this.#pickup[0] = this.#left[actionCount + tool] as number;
    this.#factCost.fill(Number.POSITIVE_INFINITY, 0, this.#end + 1);
    this.#supporter.fill(NO_SUPPORTER, 0, (actionCount + 1) * PHASES);
    for (let action = 0; action < actionCount; action++) {
      const taken = startTool[action] as number;
      const phases = taken === 0 ? ANY : taken === tool ? WITH : WITHOUT;
      const open = Math.max(1, (needs.from[action + 1] as number) - (needs.from[action] as number));
      for (let phase = 0; phase < PHASES; phase++)
        this.#unsatisfied[action * PHASES + phase] =
          phase >= this.#start && (phases & (1 << phase)) !== 0 ? open : OUT_OF_USE;
    }
    for (let phase = 0; phase < PHASES; phase++)
      this.#unsatisfied[actionCount * PHASES + phase] = phase >= this.#start ? targetCount : OUT_OF_USE;
    this.#reach(factCount * PHASES + this.#start, 0);
  }

  #reach(pair: number, cost: number): void {
    if (cost >= (this.#factCost[pair] as number)) return;
    this.#factCost[pair] = cost;
    this.#queue.push(cost, pair);
  }

  #reachEffects(action: number, phase: number, cost: number): void {
    const { actionCount, gives } = this.#work;
    if (action === actionCount) {
      this.#reach(this.#end, cost);
      return;
    }
    const end = gives.from[action + 1] as number;
    for (let g = gives.from[action] as number; g < end; g++)
      this.#reach((gives.items[g] as number) * PHASES + phase, cost);
  }

  #explore(tool: number): void {
    this.#queue.begin();
    this.#prepare(tool);
    const { factCount, actionCount, needers, isTarget } = this.#work;
    const queue = this.#queue;
    for (let pair = queue.pop(); pair >= 0; pair = queue.pop()) {
      const cost = queue.cost;
      if (cost > (this.#factCost[pair] as number) || pair === this.#end) continue;
      const phase = pair % PHASES;
      const fact = (pair - phase) / PHASES;
      this.#carry(pair, phase, cost);
      if (fact === factCount) {
        for (let at = 0; at < this.#rootlessCount; at++) this.#satisfy(this.#rootless[at] as number, pair, cost);
        continue;
      }
      const end = needers.from[fact + 1] as number;
      for (let n = needers.from[fact] as number; n < end; n++) this.#satisfy(needers.items[n] as number, pair, cost);
      if (isTarget[fact] === 1) this.#satisfy(actionCount, pair, cost);
    }
  }

  /** What holds in a phase holds in the next, for the price of getting there. */
  #carry(pair: number, phase: number, cost: number): void {
    if (phase + 1 < PHASES) this.#reach(pair + 1, (phase & 1) === 1 ? cost : cost + (this.#pickup[phase] as number));
  }

  #satisfy(action: number, pair: number, cost: number): void {
    const phase = pair % PHASES;
    const copy = action * PHASES + phase;
    const open = (this.#unsatisfied[copy] as number) - 1;
    this.#unsatisfied[copy] = open;
    if (open !== 0) return;
    this.#supporter[copy] = pair;
    this.#supporterCost[copy] = cost;
    this.#reachEffects(action, phase, cost + (this.#left[action] as number));
  }

  #markZone(): void {
    const { actionCount, factCount, givers } = this.#work;
    this.#zone.fill(0, 0, this.#end + 1);
    this.#zone[this.#end] = 1;
    this.#depth = 0;
    for (let phase = 0; phase < PHASES; phase++) this.#markSupporter(actionCount, phase);
    while (this.#depth > 0) {
      const pair = this.#stack[--this.#depth] as number;
      const phase = pair % PHASES;
      const fact = (pair - phase) / PHASES;
      if (phase > 0 && ((phase & 1) === 0 || this.#pickup[phase - 1] === 0)) this.#mark(pair - 1);
      if (fact === factCount) continue;
      const end = givers.from[fact + 1] as number;
      for (let g = givers.from[fact] as number; g < end; g++) this.#markSupporter(givers.items[g] as number, phase);
    }
  }

  #markSupporter(action: number, phase: number): void {
    const copy = action * PHASES + phase;
    if (this.#unsatisfied[copy] === 0 && this.#left[action] === 0) this.#mark(this.#supporter[copy] as number);
  }

  #mark(pair: number): void {
    if (this.#zone[pair] === 1 || this.#factCost[pair] === Number.POSITIVE_INFINITY) return;
    this.#zone[pair] = 1;
    this.#stack[this.#depth++] = pair;
  }

  #findCut(): void {
    const { factCount } = this.#work;
    this.#seen.fill(0, 0, this.#end + 1);
    this.#cutLength = 0;
    this.#cutPickups = 0;
    this.#depth = 0;
    this.#visit(factCount * PHASES + this.#start);
    while (this.#depth > 0) this.#crossFrom(this.#stack[--this.#depth] as number);
    for (let at = 0; at < this.#cutLength; at++) this.#inCut[this.#cut[at] as number] = 0;
  }

  #visit(pair: number): void {
    if (this.#seen[pair] === 1) return;
    this.#seen[pair] = 1;
    this.#stack[this.#depth++] = pair;
  }

  #crossFrom(pair: number): void {
    const { factCount, needers } = this.#work;
    const phase = pair % PHASES;
    const fact = (pair - phase) / PHASES;
    if (phase + 1 < PHASES) {
      if (this.#zone[pair + 1] !== 1) this.#visit(pair + 1);
      else this.#cutPickups |= 1 << phase;
    }
    if (fact === factCount) {
      for (let at = 0; at < this.#rootlessCount; at++) this.#cross(this.#rootless[at] as number, phase, pair);
      return;
    }
    const end = needers.from[fact + 1] as number;
    for (let n = needers.from[fact] as number; n < end; n++) this.#cross(needers.items[n] as number, phase, pair);
  }

  #cross(action: number, phase: number, pair: number): void {
    if (this.#supporter[action * PHASES + phase] !== pair) return;
    const { gives } = this.#work;
    const start = gives.from[action] as number;
    const end = gives.from[action + 1] as number;
    for (let g = start; g < end; g++) {
      if (this.#zone[(gives.items[g] as number) * PHASES + phase] !== 1) continue;
      if (this.#inCut[action] === 0) this.#cut[this.#cutLength++] = action;
      this.#inCut[action] = 1;
      return;
    }
    for (let g = start; g < end; g++) this.#visit((gives.items[g] as number) * PHASES + phase);
  }

  #exploreAgain(): void {
    this.#queue.begin();
    this.#reachCheaper();
    const { factCount, actionCount, needers } = this.#work;
    const queue = this.#queue;
    for (let pair = queue.pop(); pair >= 0; pair = queue.pop()) {
      const cost = queue.cost;
      if (cost > (this.#factCost[pair] as number) || pair === this.#end) continue;
      const phase = pair % PHASES;
      const fact = (pair - phase) / PHASES;
      this.#carry(pair, phase, cost);
      if (fact === factCount) {
        for (let at = 0; at < this.#rootlessCount; at++) this.#lower(this.#rootless[at] as number, pair, cost);
        continue;
      }
      const end = needers.from[fact + 1] as number;
      for (let n = needers.from[fact] as number; n < end; n++) this.#lower(needers.items[n] as number, pair, cost);
      this.#lower(actionCount, pair, cost);
    }
  }

  /** Offers what the last cut made cheaper: all copies of its actions, and all facts carried by its pick-ups. */
  #reachCheaper(): void {
    for (let at = 0; at < this.#cutLength; at++) {
      const action = this.#cut[at] as number;
      for (let phase = 0; phase < PHASES; phase++) {
        const copy = action * PHASES + phase;
        if (this.#unsatisfied[copy] === 0)
          this.#reachEffects(action, phase, (this.#supporterCost[copy] as number) + (this.#left[action] as number));
      }
    }
    for (let phase = 0; phase < PHASES; phase += 2) {
      if ((this.#cutPickups & (1 << phase)) === 0) continue;
      for (let pair = phase; pair < this.#end; pair += PHASES) {
        const cost = this.#factCost[pair] as number;
        if (cost !== Number.POSITIVE_INFINITY) this.#carry(pair, phase, cost);
      }
    }
  }

  #lower(action: number, pair: number, cost: number): void {
    const phase = pair % PHASES;
    const copy = action * PHASES + phase;
    if (this.#supporter[copy] !== pair || (this.#supporterCost[copy] as number) <= cost) return;
    const before = this.#supporterCost[copy] as number;
    this.#chooseSupporter(action, phase);
    const now = this.#supporterCost[copy] as number;
    if (now < before) this.#reachEffects(action, phase, now + (this.#left[action] as number));
  }

  #chooseSupporter(action: number, phase: number): void {
    const { actionCount, factCount, needs, target, targetCount } = this.#work;
    const isEnd = action === actionCount;
    const items = isEnd ? target : needs.items;
    const to = isEnd ? targetCount : (needs.from[action + 1] as number);
    let best = factCount * PHASES + phase;
    let dearest = -1;
    for (let at = isEnd ? 0 : (needs.from[action] as number); at < to; at++) {
      const pair = (items[at] as number) * PHASES + phase;
      const cost = this.#factCost[pair] as number;
      if (cost <= dearest) continue;
      dearest = cost;
      best = pair;
    }
    this.#supporter[action * PHASES + phase] = best;
    this.#supporterCost[action * PHASES + phase] = dearest < 0 ? (this.#factCost[best] as number) : dearest;
  }
}
