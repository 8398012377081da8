import { worseLevel } from './levels.ts';
import { MOST_ENTRIES } from './lower-bounds.ts';
import type { NodeValues } from './node-store.ts';
import type { RouteSearchOptions } from './route-search.ts';

/**
 * What is the least price at which any route through a state can end? One number of four ranks: steps, rank of the points,
 * milliseconds, fastener points. Reads the state in place, as the search changes it.
 */
export class StatePrice {
  private readonly o: RouteSearchOptions;
  private readonly state: Int32Array;
  private readonly timeScale: number;
  private readonly fastenerScale: number;

  constructor(options: RouteSearchOptions, state: Int32Array) {
    this.o = options;
    this.state = state;
    const { target, hands, levels } = options;
    this.fastenerScale = levels.fasteners.length;
    const pickups = hands.pickups.reduce((sum, cost) => sum + cost, 0);
    const atoms = (action: number): number => target.graph.actions[action]?.atoms.length ?? 0;
    const longest = target.actions.reduce((sum, at) => sum + (hands.work[at] ?? 0) + atoms(at) * pickups, pickups + 1);
    this.timeScale = options.order === 'steps' ? 1 : 2 ** Math.ceil(Math.log2(longest + 1));
  }

  /** The steps in a price. */
  stepsIn(price: number): number {
    return Math.floor(price / (this.o.levels.ranks * this.timeScale * this.fastenerScale));
  }

  /** The least price from the present state, reached with these values; Infinity where it cannot keep to the fewest steps. */
  of(values: NodeValues): number {
    const { bounds, hands, levels, order } = this.o;
    let steps = 0;
    let open = 0;
    let milliseconds = values.milliseconds;
    let tools = 0;
    let level = values.level;
    for (let at = 0; at < bounds.size; at++) {
      if ((this.state[bounds.word[at] ?? 0] ?? 0) & (bounds.bit[at] ?? 0)) continue;
      steps += bounds.steps[at] ?? 0;
      if (at < MOST_ENTRIES) open |= 1 << at;
      milliseconds += bounds.milliseconds[at] ?? 0;
      tools |= bounds.tools[at] ?? 0;
      if (order === 'best') level = worseLevel(levels, level, bounds.level[at] ?? 0);
    }
    for (const suffix of bounds.suffixes)
      if (open & suffix.own) steps = Math.max(steps, suffix.steps + this.stepsOf(open & suffix.until));
    steps = values.steps + Math.max(0, steps - (hands.saved[values.hands] ?? 0));
    if (order === 'steps') return steps * levels.ranks * this.timeScale * this.fastenerScale;
    if (this.o.steps !== undefined && steps > this.o.steps) return Number.POSITIVE_INFINITY;
    milliseconds += hands.pickupCost(tools & ~(hands.held[values.hands] ?? 0));
    const { rank, fastener } = this.bestEnd(level);
    const whole = (this.o.steps ?? steps) * levels.ranks + rank;
    return (whole * this.timeScale + milliseconds) * this.fastenerScale + fastener;
  }

  /** Is another stretch sure to begin? Then what was met so far does not matter. */
  resetsSurely(): boolean {
    const { mandatoryResets } = this.o.target;
    for (let word = 0; word < this.state.length; word++)
      if ((mandatoryResets[word] ?? 0) & ~(this.state[word] ?? 0)) return true;
    return false;
  }

  private isGoal(): boolean {
    return this.o.target.goal.every((word, at) => ((this.state[at] ?? 0) & word) === word);
  }

  /** Least steps of the entries whose bits are set. */
  private stepsOf(entries: number): number {
    let steps = 0;
    for (let left = entries; left !== 0; left &= left - 1)
      steps += this.o.bounds.steps[31 - Math.clz32(left & -left)] ?? 0;
    return steps;
  }

  /** The best points the route can end with: as the present stretch must go on, or after whichever reset comes last. */
  private bestEnd(level: number): { rank: number; fastener: number } {
    const { bounds, levels } = this.o;
    const goesOn = !this.resetsSurely();
    let rank = goesOn ? (levels.rank[level] ?? 0) : levels.ranks - 1;
    let fastener = goesOn ? Math.floor(level / levels.tools.length) : levels.fasteners.length - 1;
    if (this.isGoal()) return { rank, fastener };
    for (const reset of bounds.resets) {
      if ((this.state[reset.word] ?? 0) & reset.bit) continue;
      rank = Math.min(rank, levels.rank[reset.level] ?? 0);
      fastener = Math.min(fastener, Math.floor(reset.level / levels.tools.length));
    }
    return { rank, fastener };
  }
}
