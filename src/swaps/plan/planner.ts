import { type BenchMoves, wholeMoves } from './bench-moves.ts';
import { type BeliefTables, type BenchSetup, benchSetup, never, newTables } from './bench-setup.ts';
import type { BenchRun, BenchState } from './bench-state.ts';
import { BestPlan, type BestStep, TooManyStates } from './best-plan.ts';
import { chooseRun, type Policy } from './choose-run.ts';
import { type PlanLimits, worthOf } from './plan-limits.ts';
import { leastSeconds, stopSeconds, type Worth } from './prices.ts';
import { equalShares, LoneGraphs, leastPlan, SoloValues } from './solo-values.ts';
import type { SwapProblem } from './swap-problem.ts';

/** Runs that a bound is worked out over, for each part alone. */
const BOUND_RUNS = 6;
/** The exact search is not begun for more parts than this: its runs are the product of what can be done with each. */
const MOST_EXACT_PARTS = 2;

/** Beliefs that tables keep; with all that hangs on them, some 12 kB each. What is dropped is worked out again, and nothing changes. */
const MOST_BELIEFS = 8_000;

/** What planners of like problems may share, so that none works it out again. */
export class PlanTables {
  #beliefs = newTables();
  #lone = new LoneGraphs();
  readonly #most: number;

  constructor(most = MOST_BELIEFS) {
    this.#most = most;
  }

  get beliefs(): BeliefTables {
    return this.#beliefs;
  }

  get lone(): LoneGraphs {
    return this.#lone;
  }

  /** Drops what was kept where that has become much; true where it did. Planners made before it go on with what they have. */
  dropIfFull(): boolean {
    const known = [...this.#beliefs.graphs.values()].reduce((sum, { size }) => sum + size, 0);
    if (known <= this.#most) return false;
    this.#beliefs = newTables();
    this.#lone = new LoneGraphs();
    return true;
  }
}

/** Chooses runs for one problem and keeps what it worked out, so that the next choice costs less. */
export class Planner {
  readonly setup: BenchSetup;
  readonly limits: PlanLimits;
  readonly worth: Worth;
  readonly policy: Policy;
  readonly #tables: PlanTables;
  readonly #moves: BenchMoves;
  #least: BestPlan;
  #exact: BestPlan | undefined;

  constructor(problem: SwapProblem, limits: PlanLimits, tables = new PlanTables()) {
    this.#tables = tables;
    this.setup = benchSetup(problem, tables.beliefs);
    this.limits = limits;
    this.worth = worthOf(limits);
    this.policy = {
      solo: new SoloValues(this.worth, tables.lone),
      worth: this.worth,
      ahead: limits.ahead,
      mostRuns: limits.mostRuns,
      shares: new Map(),
    };
    this.#moves = wholeMoves(this.setup);
    this.#least = leastPlan(this.setup, this.worth, { moves: this.#moves, states: limits.states });
    this.#exact = problem.parts.length <= MOST_EXACT_PARTS ? this.#search() : undefined;
  }

  /** The same planner, or where its tables have become full one like it that begins anew: states of the one are not the other's. */
  lightened(): Planner {
    return this.#tables.dropIfFull() ? new Planner(this.setup.problem, this.limits, this.#tables) : this;
  }

  /** What is to be run next? Undefined when nothing is open any more or nothing can be told. */
  choose(state: BenchState): BenchRun | undefined {
    const best = this.best(state);
    return best ? best.run : chooseRun(this.setup, state, this.policy);
  }

  /** The best step by exact search over the runs looked ahead; undefined where that met too many states. */
  best(state: BenchState): BestStep | undefined {
    if (!this.#exact) return undefined;
    try {
      return this.#exact.step(state, this.limits.runs);
    } catch (error) {
      if (!(error instanceof TooManyStates)) throw error;
      this.#exact = undefined;
      return undefined;
    }
  }

  /** What no plan can go below from a state on [s], undecided parts counted. */
  bound(state: BenchState): number {
    const parts = [...state.parts.keys()];
    const shares = equalShares(this.setup, parts);
    const { solo } = this.policy;
    const charged = parts.map((part) => ({ part, state: state.parts[part] ?? never(), hosts: state.hosts, shares }));
    const sum = charged.reduce((total, one) => total + solo.least(this.setup, one, BOUND_RUNS), 0);
    return this.#exact ? Math.max(sum, this.#least.step(state, this.limits.runs).cost) : sum;
  }

  #search(): BestPlan {
    const stop = (state: BenchState): number => stopSeconds(this.setup, state, this.worth);
    const least = (state: BenchState, runsLeft: number): number =>
      runsLeft > 0 ? this.#least.step(state, runsLeft).cost : leastSeconds(this.setup, state, this.worth);
    return new BestPlan(this.#moves, { stop, end: stop, least }, this.limits.states);
  }
}
