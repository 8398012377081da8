import type { HandTable } from './hand-table.ts';
import { type Levels, worseLevel } from './levels.ts';
import type { LowerBounds } from './lower-bounds.ts';
import { NodeStore, type NodeValues } from './node-store.ts';
import { PriceQueue } from './price-queue.ts';
import { isTimeUp, type SearchLimits } from './search-limits.ts';
import { StatePrice } from './state-price.ts';
import type { TargetProblem } from './target-problem.ts';

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
  /** By local action: may be done early where that costs nothing. */
  readonly early: Uint8Array;
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
  private expanded = 0;

  constructor(options: RouteSearchOptions) {
    this.o = options;
    const { target } = options;
    this.store = new NodeStore(target.words);
    this.state = options.start?.slice() ?? new Int32Array(target.words);
    this.prices = new StatePrice(options, this.state);
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
    if (!this.holdsAll(target.needs[action]) || !this.newly(action, target.wanted)) return false;
    const clauses = target.clauses[action] ?? [];
    for (const clause of clauses) if (!clause.some((alternative) => this.holdsAll(alternative))) return false;
    return true;
  }

  private expand(node: number): void {
    const { target, hands } = this.o;
    const { store } = this;
    const state = store.hands[node] ?? 0;
    const first = this.freeClosings(state);
    for (let action = 0; action < target.actions.length; action++) {
      const graph = target.actions[action] ?? 0;
      const isFirst = first.some((one) => one.action === action);
      if (!isFirst && first.some(({ after }) => this.isSameAfter(graph, state, after))) continue;
      if (!this.isApplicable(action)) continue;
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

  /** The early actions that are possible now and cost neither step nor pick-up, with the state of the hands after each. */
  private freeClosings(state: number): { readonly action: number; readonly after: number }[] {
    const { target, hands, early, order } = this.o;
    const free: { action: number; after: number }[] = [];
    for (let action = 0; action < target.actions.length; action++) {
      if (early[action] !== 1) continue;
      const graph = target.actions[action] ?? 0;
      if ((hands.after[state]?.[graph] ?? -1) < 0) hands.fill(state, graph);
      const isFree =
        hands.steps[state]?.[graph] === 0 &&
        (order === 'steps' || hands.milliseconds[state]?.[graph] === hands.work[graph]);
      const next = hands.after[state]?.[graph] ?? state;
      if (isFree && this.isApplicable(action)) free.push({ action, after: next });
    }
    return free;
  }

  /** Does an action do the same, at the same price, after a free closing as now? Then the closing may as well come first. */
  private isSameAfter(graph: number, state: number, closed: number): boolean {
    const { hands } = this.o;
    for (const one of [state, closed]) if ((hands.after[one]?.[graph] ?? -1) < 0) hands.fill(one, graph);
    return (
      hands.after[state]?.[graph] === hands.after[closed]?.[graph] &&
      hands.steps[state]?.[graph] === hands.steps[closed]?.[graph] &&
      hands.milliseconds[state]?.[graph] === hands.milliseconds[closed]?.[graph]
    );
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
    const here = this.o.order === 'steps' ? this.freely(values) : this.atOnce(values);
    const found = this.store.find(this.state, here.hands, here.level);
    if (found >= 0) {
      const { steps, milliseconds } = this.store;
      const worse =
        here.steps > (steps[found] ?? 0) ||
        (here.steps === steps[found] && here.milliseconds >= (milliseconds[found] ?? 0));
      if (worse) return;
      this.store.write(found, here);
    }
    const price = this.prices.of(here);
    if (price === Number.POSITIVE_INFINITY) return;
    const node = found >= 0 ? found : this.store.add(this.state, here);
    this.store.key[node] = price;
    this.queue.push(node, price);
  }

  /** Does at once every action that adds no step and leaves the hands as they are: for the fewest steps that never costs. */
  private freely(values: NodeValues): NodeValues {
    return this.doAll(values, () => true);
  }

  private atOnce(values: NodeValues): NodeValues {
    if (this.isGoal()) return values;
    return this.doAll(values, (action, graph, state) => {
      const { early, hands } = this.o;
      return early[action] === 1 && hands.milliseconds[state]?.[graph] === hands.work[graph];
    });
  }

  private doAll(values: NodeValues, admits: (action: number, graph: number, state: number) => boolean): NodeValues {
    const { target, hands } = this.o;
    const state = values.hands;
    let here = values;
    for (let action = 0; action < target.actions.length; action++) {
      const graph = target.actions[action] ?? 0;
      if ((hands.after[state]?.[graph] ?? -1) < 0) hands.fill(state, graph);
      if (hands.after[state]?.[graph] !== state || hands.steps[state]?.[graph] !== 0) continue;
      if (!admits(action, graph, state) || !this.isApplicable(action)) continue;
      const parent = this.store.link(this.state, here);
      this.apply(action);
      here = {
        hands: state,
        level: this.levelAfter(here.level, graph, false),
        steps: here.steps,
        milliseconds: here.milliseconds + (hands.milliseconds[state]?.[graph] ?? 0),
        parent,
        action,
      };
      action = -1;
    }
    return here;
  }
}
