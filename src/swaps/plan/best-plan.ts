import type { BenchMoves, KnownState, Move } from './bench-moves.ts';
import type { BenchRun, BenchState } from './bench-state.ts';

/** The best way of going on from a state: what it costs, and the run to make first; undefined is to stop. */
export interface BestStep {
  readonly cost: number;
  readonly run?: BenchRun;
}

/** What is still to pay in a state [s]: for certain at least (`least`), and if one stops (`stop`), or runs out of runs (`end`). */
export interface Prices {
  readonly least: (state: BenchState, runsLeft: number) => number;
  readonly stop: (state: BenchState) => number;
  readonly end: (state: BenchState) => number;
}

/** The search met more states than it was allowed. */
export class TooManyStates extends Error {}

/** Exact search for the plan of least expected cost with a bounded number of runs, over what is known and how the bench stands. */
export class BestPlan {
  readonly #moves: BenchMoves;
  readonly #prices: Prices;
  readonly #most: number;
  readonly #known = new Map<number, BestStep>();

  constructor(moves: BenchMoves, prices: Prices, most: number) {
    this.#moves = moves;
    this.#prices = prices;
    this.#most = most;
  }

  /** What is best in a state with so many runs left, less than 32? Throws `TooManyStates`. */
  step(state: BenchState, runsLeft: number): BestStep {
    return this.#step(this.#moves.known(state), runsLeft);
  }

  #step(at: KnownState, runsLeft: number): BestStep {
    const { state } = at;
    const stop = this.#prices.stop(state);
    if (stop === 0) return { cost: 0 };
    if (runsLeft === 0) return { cost: this.#prices.end(state) };
    const key = at.id * MOST_RUNS + runsLeft;
    const kept = this.#known.get(key);
    if (kept) return kept;
    if (this.#known.size >= this.#most) throw new TooManyStates();
    let best: BestStep = { cost: stop };
    for (const look of this.#looks(at, runsLeft)) {
      if (look.low >= best.cost - ROUNDING) break;
      const cost = this.#costOf(look, runsLeft, best.cost);
      if (cost < best.cost - ROUNDING) best = { cost, run: look.move.run };
    }
    this.#known.set(key, best);
    return best;
  }

  /** The runs that can be made, the one with the lowest bound first. */
  #looks(at: KnownState, runsLeft: number): readonly Look[] {
    return this.#moves
      .from(at)
      .map((move): Look => {
        let low = move.seconds;
        for (const { chance, to } of move.branches) low += chance * this.#prices.least(to.state, runsLeft - 1);
        return { move, low };
      })
      .sort((a, b) => a.low - b.low);
  }

  /** The expected cost of a run and what follows it, or some bound on it that is no better than `best`. */
  #costOf({ move, low }: Look, runsLeft: number, best: number): number {
    let cost = low;
    for (const { chance, to } of move.branches) {
      cost += chance * (this.#step(to, runsLeft - 1).cost - this.#prices.least(to.state, runsLeft - 1));
      if (cost >= best - ROUNDING) return cost;
    }
    return cost;
  }
}

/** Costs that differ by less [s] count as one, so that the order of sums decides nothing. */
const ROUNDING = 1e-7;

/** Runs looked ahead are fewer than this. */
const MOST_RUNS = 32;

interface Look {
  readonly move: Move;
  readonly low: number;
}
