import { hasBit, listBits } from './bit-set.ts';
import { MinHeap } from './min-heap.ts';
import type { ReducedState } from './reduced-state.ts';
import type { SearchSpace } from './search-space.ts';

/** More needs than any action has: never satisfied. */
const OUT_OF_USE = 1 << 28;
const NO_SUPPORTER = -2;

/** Cuts found for one state, kept so that a successor's bound can start from those that its action leaves whole. */
export interface CutRecord {
  /** What is left of each operator's cost; operators are actions, then the goal, then one pick-up a tool. */
  readonly left: Float64Array;
  readonly from: number[];
  readonly members: number[];
  readonly costs: number[];
  total: number;
}

/** An empty record for a search space. */
export const newCutRecord = (space: SearchSpace): CutRecord => ({
  left: new Float64Array(space.actionCount + space.toolCount + 1),
  from: [0],
  members: [],
  costs: [],
  total: 0,
});

/**
 * What must any plan from here cost at least? Landmark-cut (Helmert & Domshlak, ICAPS 2009) on the problem in which facts
 * and tools, once had, stay: a tool is a fact that one pick-up operator gives, so that each tool needed and not in hand
 * is paid for once. Numbers: operator `a` is action a, `A` ends the plan, `A + t` takes up tool t; fact `f` is fact f, `F`
 * is the end, `F + t` is tool t in hand.
 */
export class LandmarkCut {
  readonly #space: SearchSpace;
  readonly #factCost: Float64Array;
  readonly #unsatisfied: Int32Array;
  readonly #supporter: Int32Array;
  readonly #supporterCost: Float64Array;
  readonly #zone: Uint8Array;
  readonly #seen: Uint8Array;
  readonly #stack: Int32Array;
  readonly #heap = new MinHeap(1024);
  readonly #ready: Int32Array;
  #readyCount = 0;
  #depth = 0;
  readonly #cut: Int32Array;
  #cutLength = 0;
  readonly #state: ReducedState;
  #left: Float64Array;
  readonly #isTarget: Uint8Array;
  readonly #list: Int32Array;

  constructor(state: ReducedState) {
    const { space } = state;
    this.#space = space;
    this.#state = state;
    const facts = space.factCount + space.toolCount + 2;
    const operators = space.actionCount + space.toolCount + 1;
    this.#factCost = new Float64Array(facts);
    this.#unsatisfied = new Int32Array(operators);
    this.#supporter = new Int32Array(operators);
    this.#supporterCost = new Float64Array(operators);
    this.#zone = new Uint8Array(facts);
    this.#seen = new Uint8Array(facts);
    this.#stack = new Int32Array(facts);
    this.#ready = new Int32Array(operators);
    this.#cut = new Int32Array(operators);
    this.#left = new Float64Array(operators);
    this.#list = new Int32Array(space.actionWords * 32);
    this.#isTarget = new Uint8Array(space.factCount);
    for (const fact of space.target) this.#isTarget[fact] = 1;
  }

  /** The bound for the state as it stands, from nothing [ms]; infinity when the target is out of reach. Fills `record`. */
  evaluate(record: CutRecord): number {
    const space = this.#space;
    const { hand } = this.#state;
    this.#left = record.left;
    record.left.set(space.cost);
    record.left[space.actionCount] = 0;
    const pickup = hand === 0 ? space.anyPickup : space.laterPickup;
    for (let tool = 1; tool <= space.toolCount; tool++) record.left[space.actionCount + tool] = pickup[tool] as number;
    record.members.length = 0;
    record.costs.length = 0;
    record.from.length = 1;
    record.total = 0;
    return this.#cutUp(record);
  }

  /**
   * The bound for a successor [ms]: those cuts of its parent that hold none of the operators applied on the way still
   * must be paid; what the others took is given back, and cutting goes on. `left` is scratch space.
   */
  evaluateAfter(parent: CutRecord, applied: Uint8Array, left: Float64Array): number {
    this.#left = left;
    left.set(parent.left);
    let kept = parent.total;
    for (let cut = 0; cut < parent.costs.length; cut++) {
      const start = parent.from[cut] as number;
      const end = parent.from[cut + 1] as number;
      let broken = false;
      for (let at = start; at < end && !broken; at++) broken = applied[parent.members[at] as number] === 1;
      if (!broken) continue;
      const cost = parent.costs[cut] as number;
      kept -= cost;
      for (let at = start; at < end; at++) {
        const member = parent.members[at] as number;
        left[member] = (left[member] as number) + cost;
      }
    }
    return kept + this.#cutUp(undefined);
  }

  #cutUp(record: CutRecord | undefined): number {
    const end = this.#space.factCount;
    this.#explore();
    let total = 0;
    while ((this.#factCost[end] as number) > 0) {
      if (this.#factCost[end] === Number.POSITIVE_INFINITY) return Number.POSITIVE_INFINITY;
      this.#markZone();
      this.#findCut();
      let cost = Number.POSITIVE_INFINITY;
      for (let at = 0; at < this.#cutLength; at++) cost = Math.min(cost, this.#left[this.#cut[at] as number] as number);
      total += cost;
      for (let at = 0; at < this.#cutLength; at++) {
        const operator = this.#cut[at] as number;
        this.#left[operator] = (this.#left[operator] as number) - cost;
        record?.members.push(operator);
      }
      if (record !== undefined) {
        record.from.push(record.members.length);
        record.costs.push(cost);
        record.total = total;
      }
      this.#exploreAgain();
    }
    return total;
  }

  #reach(fact: number, cost: number): void {
    if (cost >= (this.#factCost[fact] as number)) return;
    this.#factCost[fact] = cost;
    this.#heap.push(cost, 0, fact);
  }

  #reachEffects(operator: number, cost: number): void {
    const { actionCount, factCount, gives, startTool, endTool } = this.#space;
    if (operator >= actionCount) {
      this.#reach(factCount + operator - actionCount, cost);
      return;
    }
    for (let g = gives.from[operator] as number; g < (gives.from[operator + 1] as number); g++)
      this.#reach(gives.items[g] as number, cost);
    const end = endTool[operator] as number;
    if (end !== startTool[operator]) this.#reach(factCount + end, cost);
  }

  #explore(): void {
    const { factCount } = this.#space;
    this.#prepare();
    for (let at = 0; at < this.#readyCount; at++) {
      const operator = this.#ready[at] as number;
      this.#supporter[operator] = -1;
      this.#supporterCost[operator] = 0;
      this.#reachEffects(operator, this.#left[operator] as number);
    }
    const heap = this.#heap;
    while (heap.size > 0) {
      const fact = heap.pop();
      const cost = heap.poppedKey;
      if (cost > (this.#factCost[fact] as number) || fact === factCount) continue;
      this.#satisfy(fact, cost);
    }
  }

  #satisfy(fact: number, cost: number): void {
    const { factCount, actionCount, needers, users } = this.#space;
    const list = fact < factCount ? needers : users;
    const row = fact < factCount ? fact : fact - factCount;
    for (let n = list.from[row] as number; n < (list.from[row + 1] as number); n++)
      this.#satisfyOne(list.items[n] as number, fact, cost);
    if (fact < factCount && this.#isTarget[fact] === 1) this.#satisfyOne(actionCount, fact, cost);
  }

  #satisfyOne(operator: number, fact: number, cost: number): void {
    const open = (this.#unsatisfied[operator] as number) - 1;
    this.#unsatisfied[operator] = open;
    if (open !== 0) return;
    this.#supporter[operator] = fact;
    this.#supporterCost[operator] = cost;
    this.#reachEffects(operator, cost + (this.#left[operator] as number));
  }

  /** Costs zero for what holds, unsatisfied needs of the actions of use; others are put out of reach. */
  #prepare(): void {
    const { actionCount, factCount, toolCount, startTool } = this.#space;
    const { missing, hand, useful } = this.#state;
    this.#factCost.fill(0);
    for (let fact = 0; fact < factCount; fact++)
      if (hasBit(missing, fact)) this.#factCost[fact] = Number.POSITIVE_INFINITY;
    this.#factCost.fill(Number.POSITIVE_INFINITY, factCount, factCount + toolCount + 1);
    if (hand !== 0) this.#factCost[factCount + hand] = 0;
    this.#unsatisfied.fill(OUT_OF_USE);
    this.#supporter.fill(NO_SUPPORTER);
    this.#readyCount = 0;
    const count = listBits(useful, this.#list);
    for (let at = 0; at < count; at++) {
      const action = this.#list[at] as number;
      const tool = startTool[action] as number;
      this.#begin(action, this.#countMissing(action) + (tool !== 0 && tool !== hand ? 1 : 0));
    }
    let targets = 0;
    for (const fact of this.#space.target) if (hasBit(missing, fact)) targets++;
    this.#begin(actionCount, targets);
    for (let tool = 1; tool <= toolCount; tool++) if (tool !== hand) this.#begin(actionCount + tool, 0);
  }

  #begin(operator: number, open: number): void {
    this.#unsatisfied[operator] = open;
    if (open === 0) this.#ready[this.#readyCount++] = operator;
  }

  #countMissing(action: number): number {
    const { needs } = this.#space;
    let count = 0;
    for (let n = needs.from[action] as number; n < (needs.from[action + 1] as number); n++)
      if (hasBit(this.#state.missing, needs.items[n] as number)) count++;
    return count;
  }

  /** Marks the facts from which the end is reached at no cost along supporters. */
  #markZone(): void {
    const { factCount, actionCount, givers, bringers } = this.#space;
    this.#zone.fill(0);
    this.#zone[factCount] = 1;
    this.#depth = 0;
    this.#markSupporter(actionCount);
    while (this.#depth > 0) {
      const fact = this.#stack[--this.#depth] as number;
      const list = fact < factCount ? givers : bringers;
      const row = fact < factCount ? fact : fact - factCount;
      if (fact > factCount) this.#markSupporter(actionCount + row);
      const end = list.from[row + 1] as number;
      for (let g = list.from[row] as number; g < end; g++) this.#markSupporter(list.items[g] as number);
    }
  }

  #markSupporter(operator: number): void {
    if (this.#left[operator] !== 0 || this.#unsatisfied[operator] !== 0) return;
    const fact = this.#supporter[operator] as number;
    if (fact < 0 || this.#zone[fact] === 1) return;
    this.#zone[fact] = 1;
    this.#stack[this.#depth++] = fact;
  }

  /** Collects the operators that lead from what is reached outside the zone into it. */
  #findCut(): void {
    const seen = this.#seen.fill(0);
    this.#cutLength = 0;
    this.#depth = 0;
    for (let at = 0; at < this.#readyCount; at++) this.#cross(this.#ready[at] as number, seen);
    while (this.#depth > 0) {
      const fact = this.#stack[--this.#depth] as number;
      const { factCount, actionCount, needers, users } = this.#space;
      const list = fact < factCount ? needers : users;
      const row = fact < factCount ? fact : fact - factCount;
      for (let n = list.from[row] as number; n < (list.from[row + 1] as number); n++) {
        const operator = list.items[n] as number;
        if (this.#supporter[operator] === fact) this.#cross(operator, seen);
      }
      if (this.#supporter[actionCount] === fact) this.#cross(actionCount, seen);
    }
  }

  #cross(operator: number, seen: Uint8Array): void {
    const { factCount, actionCount, gives, startTool, endTool } = this.#space;
    if (operator >= actionCount) {
      this.#crossTo(operator, factCount + operator - actionCount, seen);
      return;
    }
    const end = endTool[operator] as number;
    const brings = end !== (startTool[operator] as number);
    if (this.#entersZone(operator) || (brings && this.#zone[factCount + end] === 1)) {
      this.#cut[this.#cutLength++] = operator;
      return;
    }
    for (let g = gives.from[operator] as number; g < (gives.from[operator + 1] as number); g++)
      this.#visit(gives.items[g] as number, seen);
    if (brings) this.#visit(factCount + end, seen);
  }

  #crossTo(operator: number, fact: number, seen: Uint8Array): void {
    if (this.#zone[fact] === 1) this.#cut[this.#cutLength++] = operator;
    else this.#visit(fact, seen);
  }

  #entersZone(action: number): boolean {
    const { gives } = this.#space;
    for (let g = gives.from[action] as number; g < (gives.from[action + 1] as number); g++)
      if (this.#zone[gives.items[g] as number] === 1) return true;
    return false;
  }

  #visit(fact: number, seen: Uint8Array): void {
    if (seen[fact] === 1 || !this.#isOpen(fact)) return;
    seen[fact] = 1;
    this.#stack[this.#depth++] = fact;
  }

  /** Brings fact costs and supporters up to date after the costs of the last cut fell. */
  #exploreAgain(): void {
    for (let at = 0; at < this.#cutLength; at++) {
      const operator = this.#cut[at] as number;
      this.#reachEffects(operator, (this.#supporterCost[operator] as number) + (this.#left[operator] as number));
    }
    const { factCount, actionCount, needers, users } = this.#space;
    const heap = this.#heap;
    while (heap.size > 0) {
      const fact = heap.pop();
      const cost = heap.poppedKey;
      if (cost > (this.#factCost[fact] as number)) continue;
      const list = fact < factCount ? needers : users;
      const row = fact < factCount ? fact : fact - factCount;
      for (let n = list.from[row] as number; n < (list.from[row + 1] as number); n++)
        this.#lower(list.items[n] as number, fact, cost);
      this.#lower(actionCount, fact, cost);
    }
  }

  #lower(operator: number, fact: number, cost: number): void {
    if (this.#supporter[operator] !== fact || (this.#supporterCost[operator] as number) <= cost) return;
    const before = this.#supporterCost[operator] as number;
    this.#chooseSupporter(operator);
    const now = this.#supporterCost[operator] as number;
    if (now < before) this.#reachEffects(operator, now + (this.#left[operator] as number));
  }

  /** The supporter of an operator is its dearest need. */
  #chooseSupporter(operator: number): void {
    const { actionCount, factCount, needs, startTool, target } = this.#space;
    const isEnd = operator === actionCount;
    const items = isEnd ? target : needs.items;
    const end = isEnd ? target.length : (needs.from[operator + 1] as number);
    const tool = isEnd ? 0 : (startTool[operator] as number);
    let best = NO_SUPPORTER;
    let dearest = -1;
    for (let at = isEnd ? 0 : (needs.from[operator] as number); at < end; at++) {
      const fact = items[at] as number;
      const cost = this.#factCost[fact] as number;
      if (cost <= dearest || !this.#isOpen(fact)) continue;
      dearest = cost;
      best = fact;
    }
    if (tool !== 0 && (this.#factCost[factCount + tool] as number) > dearest && tool !== this.#state.hand) {
      dearest = this.#factCost[factCount + tool] as number;
      best = factCount + tool;
    }
    this.#supporter[operator] = best;
    this.#supporterCost[operator] = dearest;
  }

  /** Did this fact have to be reached, or does it hold in the state itself? */
  #isOpen(fact: number): boolean {
    const { factCount } = this.#space;
    return fact < factCount ? hasBit(this.#state.missing, fact) : fact - factCount !== this.#state.hand;
  }
}
