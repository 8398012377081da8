import { type Closing, FreeWork } from './free-work.ts';
import type { HandTable } from './hand-table.ts';
import { type Levels, worseLevel } from './levels.ts';
import type { LowerBounds } from './lower-bounds.ts';
import { NodeStore, type NodeValues } from './node-store.ts';
import { PriceQueue } from './price-queue.ts';
import { isTimeUp, type SearchLimits } from './search-limits.ts';
import { StatePrice } from './state-price.ts';
import type { ClauseMasks, TargetProblem } from './target-problem.ts';

export type { SearchLimits } from './search-limits.ts';

/** What does one search minimise, within what? */
export interface RouteSearchOptions {
  readonly target: TargetProblem;
  readonly hands: HandTable;
  readonly levels: Levels;
  readonly bounds: LowerBounds;
  readonly limits: SearchLimits;
  /** `steps`: fewest steps and nothing else. `best`: then highest points, then least time. */
  readonly order: 'steps' | 'best';
  /** The fewest steps, where already proved: only routes of that many are looked at. */
  readonly steps?: number;
  /** By local action: may be done early where that costs nothing and it newly gives one of these facts. */
  readonly early: readonly (Int32Array | undefined)[];
  /** Local facts that hold from the start; none where left out. */
  readonly start?: Int32Array;
}

/** What did a search find? `actions` are local numbers; without a proof there are none, and `bound` is the least price left. */
export interface RouteSearchResult {
  readonly outcome: 'found' | 'none' | 'limit';
  readonly actions: readonly number[];
  readonly steps: number;
  readonly level: number;
  readonly milliseconds: number;
  readonly expanded: number;
}

const NO_CLAUSES: readonly ClauseMasks[] = [];
const NOTHING = { actions: [], steps: 0, level: 0, milliseconds: 0 };

/**
 * A* over (facts, hands, level) with a price of several ranks: steps, then the rank of the points, then milliseconds, then the
 * fastener points. Each rank has a lower bound of its own, so that the whole price is one. See docs/method/best-found.md.
 */
export class RouteSearch {
  private readonly o: RouteSearchOptions;
  private readonly store: NodeStore;
  private readonly queue = new PriceQueue();
  private readonly state: Int32Array;
  private readonly prices: StatePrice;
  private readonly free: FreeWork;
  /** By local action: the wanted facts it gives. */
  private readonly useful: readonly Int32Array[];
  /** What was done at once on entering the present state. */
  private readonly done: number[] = [];
  private expanded = 0;

  constructor(options: RouteSearchOptions) {
    this.o = options;
    const { target } = options;
    this.store = new NodeStore(target.words);
    this.state = options.start?.slice() ?? new Int32Array(target.words);
    this.prices = new StatePrice(options, this.state);
    this.free = new FreeWork(options);
    this.useful = target.gives.map((gives) => gives.map((word, at) => word & (target.wanted[at] ?? 0)));
  }

  /** Searches until the best is proved, nothing is left, or a limit is met. */
  run(): RouteSearchResult {
    const { hands, limits } = this.o;
    this.enter({ hands: hands.start, level: 0, steps: 0, milliseconds: 0, parent: -1, action: -1 });
    for (let node = this.queue.pop(); node >= 0; node = this.queue.pop()) {
      if (this.queue.taken !== this.store.key[node]) continue;
      this.store.key[node] = Number.NEGATIVE_INFINITY;
      this.load(node);
      if (this.isGoal()) return this.result(node);
      if (this.expanded >= limits.nodes || this.isOverTime()) return this.stopped();
      this.expanded++;
      this.expand(node);
    }
    return { outcome: 'none', ...NOTHING, expanded: this.expanded };
  }

  private isOverTime(): boolean {
    return (this.expanded & 255) === 255 && isTimeUp(this.o.limits);
  }

  private result(node: number): RouteSearchResult {
    const { store } = this;
    return {
      outcome: 'found',
      actions: store.path(node),
      steps: store.steps[node] ?? 0,
      level: store.level[node] ?? 0,
      milliseconds: store.milliseconds[node] ?? 0,
      expanded: this.expanded,
    };
  }

  private stopped(): RouteSearchResult {
    return { outcome: 'limit', ...NOTHING, steps: this.prices.stepsIn(this.queue.taken), expanded: this.expanded };
  }

  private load(node: number): void {
    const { facts, words } = this.store;
    for (let word = 0; word < words; word++) this.state[word] = facts[node * words + word] ?? 0;
  }

  private isGoal(): boolean {
    return this.holdsAll(this.o.target.goal);
  }

  private holdsAll(mask: Int32Array | undefined): boolean {
    if (!mask) return false;
    for (let word = 0; word < mask.length; word++) {
      const wanted = mask[word] ?? 0;
      if (((this.state[word] ?? 0) & wanted) !== wanted) return false;
    }
    return true;
  }

  /** Does the action newly give any of these facts? */
  private newly(action: number, mask: Int32Array): boolean {
    const gives = this.o.target.gives[action];
    if (!gives) return false;
    for (let word = 0; word < mask.length; word++)
      if ((gives[word] ?? 0) & (mask[word] ?? 0) & ~(this.state[word] ?? 0)) return true;
    return false;
  }

  private isApplicable(action: number): boolean {
    const { target } = this.o;
    if (!this.holdsAll(target.needs[action]) || this.holdsAll(this.useful[action])) return false;
    const clauses = target.clauses[action] ?? NO_CLAUSES;
    for (const clause of clauses) if (!clause.some((alternative) => this.holdsAll(alternative))) return false;
    return true;
  }

  private expand(node: number): void {
    const { target, hands } = this.o;
    const { store } = this;
    const state = store.hands[node] ?? 0;
    const first = this.free.closings(state).filter(({ action, served }) => this.isServed(action, served));
    for (let action = 0; action < target.actions.length; action++) {
      const graph = target.actions[action] ?? 0;
      if (!this.isApplicable(action) || isBehind(first, action)) continue;
      if ((hands.after[state]?.[graph] ?? -1) < 0) hands.fill(state, graph);
      const resets = this.newly(action, target.resets);
      if (resets && !this.isOfUse(action)) continue;
      this.apply(action);
      const level = this.levelAfter(store.level[node] ?? 0, graph, resets && !this.isGoal());
      this.enter({
        hands: hands.after[state]?.[graph] ?? 0,
        level,
        steps: (store.steps[node] ?? 0) + (hands.steps[state]?.[graph] ?? 0),
        milliseconds: (store.milliseconds[node] ?? 0) + (hands.milliseconds[state]?.[graph] ?? 0),
        parent: node,
        action,
      });
      this.load(node);
    }
  }

  /** Is the action possible, and does it newly give one of these facts? */
  private isServed(action: number, served: Int32Array): boolean {
    return this.newly(action, served) && this.isApplicable(action);
  }

  /**
   * Does anything still want what this action newly gives: the goal, or an action with something left to give, as a need or in
   * a clause not met yet? Where nothing does, the action is needless on every route from here.
   */
  private isOfUse(action: number): boolean {
    const { target } = this.o;
    if (this.newly(action, target.goal)) return true;
    for (let other = 0; other < target.actions.length; other++) {
      if (!this.newly(other, target.wanted)) continue;
      if (this.newly(action, target.needs[other] ?? target.goal)) return true;
      for (const clause of target.clauses[other] ?? [])
        if (!clause.some((one) => this.holdsAll(one)) && clause.some((one) => this.newly(action, one))) return true;
    }
    return false;
  }

  private apply(action: number): void {
    const gives = this.o.target.gives[action];
    for (let word = 0; word < this.state.length; word++)
      this.state[word] = (this.state[word] ?? 0) | (gives?.[word] ?? 0);
  }

  private levelAfter(level: number, graph: number, resets: boolean): number {
    if (this.o.order === 'steps' || resets || this.prices.resetsSurely()) return 0;
    return worseLevel(this.o.levels, level, this.o.levels.ofAction[graph] ?? 0);
  }

  /** Enters the present state with these values, after all that can be done at once; drops what is known at no worse price. */
  private enter(values: NodeValues): void {
    const last = this.doAtOnce(values);
    const found = this.store.find(this.state, last.hands, last.level);
    if (found >= 0 && !this.isBetter(last, found)) return;
    const price = this.prices.of(last);
    if (price === Number.POSITIVE_INFINITY && found < 0) return;
    const here = this.linked(values, last);
    if (found >= 0) this.store.write(found, here);
    if (price === Number.POSITIVE_INFINITY) return;
    const node = found >= 0 ? found : this.store.add(this.state, here);
    this.store.key[node] = price;
    this.queue.push(node, price);
  }

  private isBetter(values: NodeValues, known: number): boolean {
    const steps = this.store.steps[known] ?? 0;
    return (
      values.steps < steps || (values.steps === steps && values.milliseconds < (this.store.milliseconds[known] ?? 0))
    );
  }

  /** Keeps the path through what was done at once; the values of its end. */
  private linked(values: NodeValues, last: NodeValues): NodeValues {
    if (this.done.length === 0) return values;
    let { parent, action } = values;
    for (const next of this.done) {
      parent = this.store.link(parent, action);
      action = next;
    }
    const { hands, level, steps, milliseconds } = last;
    return { hands, level, steps, milliseconds, parent, action };
  }

  /**
   * Does at once every action that adds no step and leaves the hands as they are, for best found only where it is early: that
   * never costs. Changes the state and lists what was `done`; the values afterwards, their path still open.
   */
  private doAtOnce(values: NodeValues): NodeValues {
    const { target, hands, early, order } = this.o;
    this.done.length = 0;
    const ready = this.free.atOnce(values.hands);
    if (ready.length === 0 || (order === 'best' && this.isGoal())) return values;
    let { level, milliseconds } = values;
    for (let at = 0; at < ready.length; at++) {
      const action = ready[at] ?? 0;
      const served = order === 'best' ? early[action] : this.useful[action];
      if (!served || !this.isServed(action, served)) continue;
      this.apply(action);
      const graph = target.actions[action] ?? 0;
      level = this.levelAfter(level, graph, false);
      milliseconds += hands.milliseconds[values.hands]?.[graph] ?? 0;
      this.done.push(action);
      at = -1;
    }
    const { hands: state, steps, parent, action } = values;
    return { hands: state, level, steps, milliseconds, parent, action };
  }
}

/** Is a free closing to come first, with the action doing the same after it as now? */
const isBehind = (closings: readonly Closing[], action: number): boolean => {
  let behind = false;
  for (const closing of closings) {
    if (closing.action === action) return false;
    if (!behind && closing.isSame(action)) behind = true;
  }
  return behind;
};
