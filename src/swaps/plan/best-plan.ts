import { benchRuns } from './bench-runs.ts';
import type { BenchSetup } from './bench-setup.ts';
import { type BenchRun, type BenchState, stateKey } from './bench-state.ts';
import { type RunBranch, runBranches } from './run-branches.ts';
import { runSeconds } from './run-cost.ts';

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
  readonly #setup: BenchSetup;
  readonly #prices: Prices;
  readonly #most: number;
  readonly #known = new Map<string, BestStep>();

  constructor(setup: BenchSetup, prices: Prices, most: number) {
    this.#setup = setup;
    this.#prices = prices;
    this.#most = most;
  }

  /** How many states were worked out? */
  get size(): number {
    return this.#known.size;
  }

  /** What is best in a state with so many runs left? Throws `TooManyStates`. */
  step(state: BenchState, runsLeft: number): BestStep {
    const stop = this.#prices.stop(state);
    if (stop === 0) return { cost: 0 };
    if (runsLeft === 0) return { cost: this.#prices.end(state) };
    const key = `${runsLeft} ${stateKey(this.#setup, state)}`;
    const kept = this.#known.get(key);
    if (kept) return kept;
    if (this.#known.size >= this.#most) throw new TooManyStates();
    let best: BestStep = { cost: stop };
    for (const look of this.#looks(state, runsLeft)) {
      if (look.low >= best.cost - ROUNDING) break;
      const cost = this.#costOf(look, runsLeft, best.cost);
      if (cost < best.cost - ROUNDING) best = { cost, run: look.run };
    }
    this.#known.set(key, best);
    return best;
  }

  /** The runs that can be made, the one with the lowest bound first. */
  #looks(state: BenchState, runsLeft: number): readonly Look[] {
    return benchRuns(this.#setup, state)
      .map((run): Look => {
        const branches = runBranches(this.#setup, state, run);
        const rest = branches.reduce(
          (sum, branch) => sum + branch.chance * this.#prices.least(branch.state, runsLeft - 1),
          0,
        );
        return { run, branches, low: runSeconds(this.#setup, state, run) + rest };
      })
      .sort((a, b) => a.low - b.low);
  }

  /** The expected cost of a run and what follows it, or some bound on it that is no better than `best`. */
  #costOf({ branches, low }: Look, runsLeft: number, best: number): number {
    let cost = low;
    for (const branch of branches) {
      cost +=
        branch.chance * (this.step(branch.state, runsLeft - 1).cost - this.#prices.least(branch.state, runsLeft - 1));
      if (cost >= best - ROUNDING) return cost;
    }
    return cost;
  }
}

/** Costs that differ by less [s] count as one, so that the order of sums decides nothing. */
const ROUNDING = 1e-7;

interface Look {
  readonly run: BenchRun;
  readonly branches: readonly RunBranch[];
  readonly low: number;
}
