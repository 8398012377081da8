// Long because: one bound with its incremental repair; its parts share the arrays of one state and are read together.
import { CostQueue } from './cost-queue.ts';
import type { OpenWork } from './open-work.ts';
import type { SearchSpace } from './search-space.ts';

const NO_SUPPORTER = -2;

/** Cuts found for one state, kept so that a successor's bound can start from those that its action leaves whole. */
export interface CutRecord {
  /** What is left of each operator's cost: the problem's actions, one empty place, then one pick-up a tool. */
  readonly left: Float64Array;
  readonly from: number[];
  /** Operators of all cuts, numbered as `left`. */
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
 * is paid for once. Among the open work, operator `a` is action a, `m` (their number) ends the plan, `m + t` takes up
 * tool t; fact `f` is fact f, `n` (their number) is the end, `n + t` is tool t in hand.
 * One class past 300 lines on purpose: its sweeps share nine arrays and are the innermost loops.
 */
export class LandmarkCut {
  readonly #space: SearchSpace;
  readonly #work: OpenWork;
  /** What is left of the open operators' costs after the last evaluation. */
  readonly left: Float64Array;
  readonly #factCost: Float64Array;
  readonly #unsatisfied: Int32Array;
  readonly #supporter: Int32Array;
  readonly #supporterCost: Float64Array;
  readonly #zone: Uint8Array;
  readonly #seen: Uint8Array;
  readonly #stack: Int32Array;
  readonly #queue = new CostQueue(1024);
  readonly #ready: Int32Array;
  readonly #cut: Int32Array;
  readonly #scratch: Float64Array;
  #readyCount = 0;
  #cutLength = 0;
  #depth = 0;

  constructor(space: SearchSpace, work: OpenWork) {
    this.#space = space;
    this.#work = work;
    const facts = space.factCount + space.toolCount + 1;
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
    this.#scratch = new Float64Array(operators);
    this.left = new Float64Array(operators);
  }

  /** The bound for the open work, from nothing [ms]; infinity when the target is out of reach. Fills `record`. */
  evaluate(record: CutRecord): number {
    const { cost, actionCount, toolCount, anyPickup, laterPickup } = this.#space;
    const pickup = this.#work.hand === 0 ? anyPickup : laterPickup;
    record.left.set(cost);
    for (let tool = 1; tool <= toolCount; tool++) record.left[actionCount + tool] = pickup[tool] as number;
    record.members.length = 0;
    record.costs.length = 0;
    record.from.length = 1;
    record.total = 0;
    this.#gather(record.left);
    const bound = this.#cutUp(record);
    this.#scatter(record.left);
    return bound;
  }

  /**
   * The bound for a successor [ms]: those cuts of its parent that hold none of the operators applied on the way still
   * must be paid; what the others took is given back, and cutting goes on.
   */
  evaluateAfter(parent: CutRecord, applied: Uint8Array): number {
    const left = this.#scratch;
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
    this.#gather(left);
    return kept + this.#cutUp(undefined);
  }

  #gather(all: Float64Array): void {
    const { actionOf, actionCount } = this.#work;
    for (let action = 0; action < actionCount; action++) this.left[action] = all[actionOf[action] as number] as number;
    this.left[actionCount] = 0;
    for (let tool = 1; tool <= this.#space.toolCount; tool++)
      this.left[actionCount + tool] = all[this.#space.actionCount + tool] as number;
  }

  #scatter(all: Float64Array): void {
    const { actionOf, actionCount } = this.#work;
    for (let action = 0; action < actionCount; action++) all[actionOf[action] as number] = this.left[action] as number;
    for (let tool = 1; tool <= this.#space.toolCount; tool++)
      all[this.#space.actionCount + tool] = this.left[actionCount + tool] as number;
  }

  #cutUp(record: CutRecord | undefined): number {
    const end = this.#work.factCount;
    this.#explore();
    let total = 0;
    while ((this.#factCost[end] as number) > 0) {
      if (this.#factCost[end] === Number.POSITIVE_INFINITY) return Number.POSITIVE_INFINITY;
      this.#markZone();
      this.#findCut();
      let cost = Number.POSITIVE_INFINITY;
      for (let at = 0; at < this.#cutLength; at++) cost = Math.min(cost, this.left[this.#cut[at] as number] as number);
      total += cost;
      for (let at = 0; at < this.#cutLength; at++) {
        const operator = this.#cut[at] as number;
        this.left[operator] = (this.left[operator] as number) - cost;
      }
      if (record !== undefined) this.#note(record, cost);
      this.#exploreAgain();
    }
    return total;
  }

  #note(record: CutRecord, cost: number): void {
    const { actionCount, actionOf } = this.#work;
    for (let at = 0; at < this.#cutLength; at++) {
      const operator = this.#cut[at] as number;
      const isAction = operator < actionCount;
      record.members.push(isAction ? (actionOf[operator] as number) : operator - actionCount + this.#space.actionCount);
    }
    record.from.push(record.members.length);
    record.costs.push(cost);
    record.total += cost;
  }

  #explore(): void {
    this.#queue.begin();
    this.#prepare();
    for (let at = 0; at < this.#readyCount; at++) {
      const operator = this.#ready[at] as number;
      this.#reachEffects(operator, this.left[operator] as number);
    }
    const { factCount, actionCount, needers, users, isTarget } = this.#work;
    const queue = this.#queue;
    for (let fact = queue.pop(); fact >= 0; fact = queue.pop()) {
      const cost = queue.cost;
      if (cost > (this.#factCost[fact] as number) || fact === factCount) continue;
      const list = fact < factCount ? needers : users;
      const row = fact < factCount ? fact : fact - factCount;
      const end = list.from[row + 1] as number;
      for (let n = list.from[row] as number; n < end; n++) this.#satisfy(list.items[n] as number, fact, cost);
      if (fact < factCount && isTarget[fact] === 1) this.#satisfy(actionCount, fact, cost);
    }
  }

  /** Costs zero for the tool in hand only; how many needs of each operator are open. */
  #prepare(): void {
    const { factCount, actionCount, hand, startTool, needs, targetCount } = this.#work;
    const { toolCount } = this.#space;
    this.#factCost.fill(Number.POSITIVE_INFINITY, 0, factCount + toolCount + 1);
    if (hand !== 0) this.#factCost[factCount + hand] = 0;
    this.#readyCount = 0;
    for (let action = 0; action < actionCount; action++) {
      const tool = startTool[action] as number;
      const open = (needs.from[action + 1] as number) - (needs.from[action] as number);
      this.#begin(action, open + (tool !== 0 && tool !== hand ? 1 : 0));
    }
    this.#begin(actionCount, targetCount);
    for (let tool = 1; tool <= toolCount; tool++) {
      if (tool !== hand) this.#begin(actionCount + tool, 0);
      else this.#unsatisfied[actionCount + tool] = 1;
    }
  }

  #begin(operator: number, open: number): void {
    this.#unsatisfied[operator] = open;
    this.#supporter[operator] = NO_SUPPORTER;
    this.#supporterCost[operator] = 0;
    if (open === 0) this.#ready[this.#readyCount++] = operator;
  }

  #satisfy(operator: number, fact: number, cost: number): void {
    const open = (this.#unsatisfied[operator] as number) - 1;
    this.#unsatisfied[operator] = open;
    if (open !== 0) return;
    this.#supporter[operator] = fact;
    this.#supporterCost[operator] = cost;
    this.#reachEffects(operator, cost + (this.left[operator] as number));
  }

  #reach(fact: number, cost: number): void {
    if (cost >= (this.#factCost[fact] as number)) return;
    this.#factCost[fact] = cost;
    this.#queue.push(cost, fact);
  }

  #reachEffects(operator: number, cost: number): void {
    const { actionCount, factCount, gives, startTool, endTool } = this.#work;
    if (operator >= actionCount) {
      this.#reach(factCount + operator - actionCount, cost);
      return;
    }
    const end = gives.from[operator + 1] as number;
    for (let g = gives.from[operator] as number; g < end; g++) this.#reach(gives.items[g] as number, cost);
    const tool = endTool[operator] as number;
    if (tool !== startTool[operator]) this.#reach(factCount + tool, cost);
  }

  /** Marks the facts from which the end is reached at no cost along supporters. */
  #markZone(): void {
    const { factCount, actionCount, givers, bringers } = this.#work;
    this.#zone.fill(0);
    this.#zone[factCount] = 1;
    this.#depth = 0;
    this.#markSupporter(actionCount);
    while (this.#depth > 0) {
      const fact = this.#stack[--this.#depth] as number;
      const list = fact < factCount ? givers : bringers;
      const row = fact < factCount ? fact : fact - factCount;
      const end = list.from[row + 1] as number;
      for (let g = list.from[row] as number; g < end; g++) this.#markSupporter(list.items[g] as number);
    }
  }

  #markSupporter(operator: number): void {
    if (this.left[operator] !== 0 || this.#unsatisfied[operator] !== 0) return;
    const fact = this.#supporter[operator] as number;
    if (fact < 0 || this.#zone[fact] === 1) return;
    this.#zone[fact] = 1;
    this.#stack[this.#depth++] = fact;
  }

  /** Collects the operators that lead from what is reached outside the zone into it. */
  #findCut(): void {
    const { factCount, actionCount, needers, users } = this.#work;
    this.#seen.fill(0);
    this.#cutLength = 0;
    this.#depth = 0;
    for (let at = 0; at < this.#readyCount; at++) this.#cross(this.#ready[at] as number);
    while (this.#depth > 0) {
      const fact = this.#stack[--this.#depth] as number;
      const list = fact < factCount ? needers : users;
      const row = fact < factCount ? fact : fact - factCount;
      const end = list.from[row + 1] as number;
      for (let n = list.from[row] as number; n < end; n++) {
        const operator = list.items[n] as number;
        if (this.#supporter[operator] === fact) this.#cross(operator);
      }
      if (this.#supporter[actionCount] === fact) this.#cross(actionCount);
    }
  }

  #cross(operator: number): void {
    const { factCount, actionCount, gives, startTool, endTool } = this.#work;
    if (operator >= actionCount) {
      const fact = factCount + operator - actionCount;
      if (this.#zone[fact] === 1) this.#cut[this.#cutLength++] = operator;
      else this.#visit(fact);
      return;
    }
    const tool = endTool[operator] as number;
    const brings = tool !== (startTool[operator] as number);
    const start = gives.from[operator] as number;
    const end = gives.from[operator + 1] as number;
    let enters = brings && this.#zone[factCount + tool] === 1;
    for (let g = start; g < end && !enters; g++) enters = this.#zone[gives.items[g] as number] === 1;
    if (enters) {
      this.#cut[this.#cutLength++] = operator;
      return;
    }
    for (let g = start; g < end; g++) this.#visit(gives.items[g] as number);
    if (brings && tool !== this.#work.hand) this.#visit(factCount + tool);
  }

  #visit(fact: number): void {
    if (this.#seen[fact] === 1) return;
    this.#seen[fact] = 1;
    this.#stack[this.#depth++] = fact;
  }

  /** Brings fact costs and supporters up to date after the costs of the last cut fell. */
  #exploreAgain(): void {
    this.#queue.begin();
    for (let at = 0; at < this.#cutLength; at++) {
      const operator = this.#cut[at] as number;
      this.#reachEffects(operator, (this.#supporterCost[operator] as number) + (this.left[operator] as number));
    }
    const { factCount, actionCount, needers, users } = this.#work;
    const queue = this.#queue;
    for (let fact = queue.pop(); fact >= 0; fact = queue.pop()) {
      const cost = queue.cost;
      if (cost > (this.#factCost[fact] as number)) continue;
      const list = fact < factCount ? needers : users;
      const row = fact < factCount ? fact : fact - factCount;
      const end = fact === factCount ? 0 : (list.from[row + 1] as number);
      for (let n = list.from[row] as number; n < end; n++) {
        const operator = list.items[n] as number;
        if (this.#supporter[operator] === fact) this.#lower(operator, cost);
      }
      if (this.#supporter[actionCount] === fact) this.#lower(actionCount, cost);
    }
  }

  #lower(operator: number, cost: number): void {
    const before = this.#supporterCost[operator] as number;
    if (before <= cost) return;
    this.#chooseSupporter(operator);
    const now = this.#supporterCost[operator] as number;
    if (now < before) this.#reachEffects(operator, now + (this.left[operator] as number));
  }

  /** The supporter of an operator is its dearest need. */
  #chooseSupporter(operator: number): void {
    const { actionCount, factCount, needs, startTool, target, targetCount } = this.#work;
    const isEnd = operator === actionCount;
    const items = isEnd ? target : needs.items;
    const end = isEnd ? targetCount : (needs.from[operator + 1] as number);
    const tool = isEnd ? 0 : (startTool[operator] as number);
    let best = NO_SUPPORTER;
    let dearest = -1;
    for (let at = isEnd ? 0 : (needs.from[operator] as number); at < end; at++) {
      const fact = items[at] as number;
      const cost = this.#factCost[fact] as number;
      if (cost <= dearest) continue;
      dearest = cost;
      best = fact;
    }
    if (tool !== 0 && tool !== this.#work.hand && (this.#factCost[factCount + tool] as number) > dearest) {
      dearest = this.#factCost[factCount + tool] as number;
      best = factCount + tool;
    }
    this.#supporter[operator] = best;
    this.#supporterCost[operator] = dearest;
  }
}
