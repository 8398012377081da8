// Long because: the search loop with its pruning rules, each with its proof beside it.
import { invariant } from '#quantity/unfasten-error';
import { canonicalMoves, type Move } from './canonical-moves.ts';
import { greedyPlan } from './greedy-plan.ts';
import { type CutRecord, LandmarkCut, newCutRecord } from './landmark-cut.ts';
import { MinHeap } from './min-heap.ts';
import { NodeStore } from './node-store.ts';
import { OpenWork } from './open-work.ts';
import { PickupRepeats } from './pickup-repeats.ts';
import { ReducedState } from './reduced-state.ts';
import { RepeatCut } from './repeat-cut.ts';
import type { SearchSpace } from './search-space.ts';
import { StateLandmarks } from './state-landmarks.ts';

/** Words of stored states at most (half a gigabyte); the search then stops with what it has. */
const MOST_WORDS = 1 << 27;

/** When must a search stop? */
export interface SearchStop {
  readonly deadline: number;
  readonly now: () => number;
  readonly nodeLimit: number;
}

/**
 * A* over (missing facts, actions of use, tool in hand). Each movable action that could be done with what is in hand is
 * either done now or never, so every plan is met in one canonical order only.
 */
export class PlanSearch {
  readonly #space: SearchSpace;
  readonly #state: ReducedState;
  readonly #landmarks: StateLandmarks;
  readonly #cuts: LandmarkCut;
  readonly #repeats: PickupRepeats;
  readonly #repeatCut: RepeatCut;
  readonly #record: CutRecord;
  readonly #work: OpenWork;
  readonly #applied: Uint8Array;
  readonly #store: NodeStore;
  readonly #queue = new MinHeap(256);
  readonly #words: Int32Array;
  #steps: number[] = [];
  /** Empty hands stand for others only where bounds need not tell them apart. */
  readonly #leastHand: number;
  bestCost = Number.POSITIVE_INFINITY;
  bestPlan: number[] = [];
  bound = 0;
  expanded = 0;

  constructor(space: SearchSpace) {
    this.#space = space;
    this.#state = new ReducedState(space);
    this.#landmarks = new StateLandmarks(this.#state);
    this.#work = new OpenWork(space);
    this.#cuts = new LandmarkCut(space, this.#work);
    this.#repeats = new PickupRepeats(this.#state, this.#landmarks);
    this.#repeatCut = new RepeatCut(space, this.#work);
    this.#record = newCutRecord(space);
    this.#applied = new Uint8Array(this.#record.left.length);
    this.#words = new Int32Array(space.factWords + space.actionWords + 1);
    this.#store = new NodeStore(this.#words.length);
    this.#leastHand = space.anyPickup.every((cost, tool) => cost === space.laterPickup[tool]) ? 0 : 1;
  }

  get stored(): number {
    return this.#store.count;
  }

  /** Searches until proved or stopped; may be called once. */
  run(stop: SearchStop): void {
    this.#start();
    let dive = -1;
    let depth = 0;
    while (this.#queue.size > 0 && this.#queue.leastKey < this.bestCost && !this.#mustStop(stop)) {
      const diving = dive >= 0 && this.#store.isOpen(dive);
      const node = diving ? dive : this.#takeNext();
      if (node < 0 || !this.#refine(node, diving)) continue;
      depth = diving ? depth + 1 : 1;
      const child = this.#expand(node, stop);
      dive = child >= 0 && this.#mayDive(depth) ? child : -1;
    }
    this.bound = Math.min(this.bestCost, this.#leastOpen());
  }

  #mustStop(stop: SearchStop): boolean {
    if (this.expanded >= stop.nodeLimit || this.#store.count * this.#words.length > MOST_WORDS) return true;
    return stop.now() > stop.deadline;
  }

  /** The open state with the least bound, or -1 where the one on top was stale. */
  #takeNext(): number {
    const node = this.#queue.pop();
    if (!this.#store.isOpen(node)) return -1;
    if (this.#store.bound(node) <= this.#queue.poppedKey) return node;
    this.#enqueue(node);
    return -1;
  }

  /** From the first states and then now and then, straight down to some plan; else by least bound. */
  #mayDive(depth: number): boolean {
    return depth > 1 || this.expanded < 4 || this.expanded % 64 === 0;
  }

  #leastOpen(): number {
    while (this.#queue.size > 0) {
      const node = this.#queue.pop();
      if (!this.#store.isOpen(node)) continue;
      if (this.#store.bound(node) <= this.#queue.poppedKey) return this.#queue.poppedKey;
      this.#enqueue(node);
    }
    return Number.POSITIVE_INFINITY;
  }

  #enqueue(node: number): void {
    this.#queue.push(this.#store.bound(node), -this.#store.spent(node), node);
  }

  #start(): void {
    this.#state.loadStart();
    this.#steps = [];
    const cost = this.#settle();
    if (cost === Number.POSITIVE_INFINITY) return;
    if (this.#state.reachedTarget) {
      this.bestCost = cost;
      this.bestPlan = this.#steps;
      return;
    }
    const greedy = greedyPlan(this.#space);
    this.bestCost = greedy?.cost ?? Number.POSITIVE_INFINITY;
    this.bestPlan = [...(greedy?.plan ?? [])];
    this.#work.load(this.#state);
    const bound = cost + this.#cuts.evaluate(this.#record);
    this.#pack();
    this.#enqueue(this.#store.add({ words: this.#words, spent: cost, bound, parent: -1, steps: this.#steps }));
  }

  /**
   * Cuts the state down and does every forced action with what is in hand, to the end. Answers their cost, infinite when
   * the target is out of reach. Leaves the landmarks of the final state.
   */
  #settle(): number {
    const { cost, startTool, movable } = this.#space;
    const state = this.#state;
    let spent = 0;
    for (;;) {
      if (state.reachedTarget) return spent;
      if (!state.simplify()) return Number.POSITIVE_INFINITY;
      this.#landmarks.compute();
      if (this.#landmarks.dropNeverFirst()) continue;
      let forced = false;
      for (let at = 0; at < state.orderLength; at++) {
        const action = state.order[at] as number;
        const tool = startTool[action] as number;
        if (movable[action] !== 1 || (tool !== 0 && tool !== state.hand)) continue;
        if (!state.isApplicable(action) || !this.#landmarks.isForced(action)) continue;
        state.apply(action);
        spent += cost[action] as number;
        this.#steps.push(action);
        forced = true;
      }
      if (!forced) break;
    }
    this.#canonicalHand();
    return spent;
  }

  /** Hands from which every tool still of use costs the same are one: the lowest number stands for all. */
  #canonicalHand(): void {
    const { changeover, toolCount, startTool } = this.#space;
    const state = this.#state;
    const width = toolCount + 1;
    for (let other = this.#leastHand; other < state.hand; other++) {
      let same = true;
      for (let at = 0; at < state.orderLength && same; at++) {
        const tool = startTool[state.order[at] as number] as number;
        same = tool === 0 || changeover[other * width + tool] === changeover[state.hand * width + tool];
      }
      if (same) {
        state.hand = other;
        return;
      }
    }
  }

  #pack(): void {
    const { factWords, actionWords } = this.#space;
    this.#words.set(this.#state.missing);
    this.#words.set(this.#state.useful, factWords);
    this.#words[factWords + actionWords] = this.#state.hand;
  }

  #load(words: Int32Array): void {
    const { factWords, actionWords } = this.#space;
    this.#state.missing.set(words.subarray(0, factWords));
    this.#state.useful.set(words.subarray(factWords, factWords + actionWords));
    this.#state.hand = words[factWords + actionWords] as number;
  }

  /**
   * Loads a state, finds its cuts and, the first time, the dearer bound. Answers false when it is not its turn any more.
   */
  #refine(node: number, diving: boolean): boolean {
    const store = this.#store;
    this.#load(store.wordsOf(node));
    invariant(this.#state.simplify(), 'A stored state can no longer reach the target', 'neutral search');
    this.#landmarks.compute();
    this.#work.load(this.#state);
    const cut = this.#cuts.evaluate(this.#record);
    if (!store.isRefined(node)) {
      const repeats = Math.max(this.#repeats.bound(), this.#repeatCut.bound(this.#cuts.left));
      store.refine(node, store.spent(node) + cut + repeats);
      if (store.bound(node) >= this.bestCost) {
        store.close(node);
        return false;
      }
      if (!diving && store.bound(node) > this.#queue.leastKey) {
        this.#enqueue(node);
        return false;
      }
    }
    return true;
  }

  /** Makes all successors of the state that has just been refined; answers the most promising new one, or -1. */
  #expand(node: number, stop: SearchStop): number {
    this.expanded++;
    this.#store.close(node);
    const words = this.#store.wordsOf(node).slice();
    let best = -1;
    for (const move of canonicalMoves(this.#state, this.#landmarks)) {
      const child = this.#follow(node, words, move);
      if (child >= 0 && (best < 0 || this.#isBetter(child, best))) best = child;
      if (stop.now() <= stop.deadline) continue;
      // Out of time amid the successors: the state stays open, so that the bound still counts those not made.
      this.#store.reopen(node);
      this.#enqueue(node);
      return -1;
    }
    return best;
  }

  #isBetter(a: number, b: number): boolean {
    const store = this.#store;
    return store.bound(a) < store.bound(b) || (store.bound(a) === store.bound(b) && store.spent(a) > store.spent(b));
  }

  /** Makes one successor and stores it if it may lead to a better plan; answers its number, or -1. */
  #follow(parent: number, words: Int32Array, move: Move): number {
    const { cost, startTool, endTool, changeover, toolCount, actionCount } = this.#space;
    const state = this.#state;
    this.#load(words);
    const tool = startTool[move.action] as number;
    const hand = state.hand;
    const change = tool === 0 || tool === hand ? 0 : (changeover[hand * (toolCount + 1) + tool] as number);
    state.useful.set(move.useful);
    state.apply(move.action);
    if (endTool[move.action] !== 0) state.hand = endTool[move.action] as number;
    this.#steps = [move.action];
    const settled = this.#settle();
    const spent = this.#store.spent(parent) + change + (cost[move.action] as number) + settled;
    if (spent >= this.bestCost) return -1;
    if (state.reachedTarget) {
      this.bestCost = spent;
      this.bestPlan = [...this.#store.plan(parent), ...this.#steps];
      return -1;
    }
    this.#pack();
    const known = this.#store.find(this.#words);
    if (known >= 0 && this.#store.spent(known) <= spent) return -1;
    this.#applied.fill(0);
    for (const step of this.#steps) this.#applied[step] = 1;
    if (tool !== 0 && tool !== hand) this.#applied[actionCount + tool] = 1;
    this.#work.load(this.#state);
    const ahead = this.#cuts.evaluateAfter(this.#record, this.#applied) + this.#repeats.bound();
    const bound = Math.max(this.#store.bound(parent), spent + ahead);
    if (bound >= this.bestCost) return -1;
    const stored = { words: this.#words, spent, bound, parent, steps: this.#steps };
    const child = known >= 0 ? known : this.#store.add(stored);
    if (known >= 0) this.#store.improve(known, stored);
    this.#enqueue(child);
    return child;
  }
}
