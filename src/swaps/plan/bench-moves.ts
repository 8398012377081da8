import { benchRuns } from './bench-runs.ts';
import { type BenchSetup, never, settingKey, settingOf } from './bench-setup.ts';
import { type BenchRun, type BenchState, stateKey } from './bench-state.ts';
import { runBranches } from './run-branches.ts';
import { type RunWork, runSeconds, runWork, workSeconds } from './run-cost.ts';

/** A state met before: those in which the same runs can follow with the same chances are one object, with one number. */
export interface KnownState {
  readonly id: number;
  readonly state: BenchState;
}

/** A run that can be made, what it takes, and where it may lead: chances add up to 1. */
export interface Move {
  readonly run: BenchRun;
  readonly seconds: number;
  readonly branches: readonly { readonly chance: number; readonly to: KnownState }[];
}

/** What a search goes over: states, and the runs that can be made in each. */
export interface BenchMoves {
  /** The state met before that is like this one, or a new one. */
  readonly known: (state: BenchState) => KnownState;
  readonly from: (at: KnownState) => readonly Move[];
}

/** Numbers the states of one bench. */
class KnownStates {
  readonly #setup: BenchSetup;
  readonly #known = new Map<string, KnownState>();

  constructor(setup: BenchSetup) {
    this.#setup = setup;
  }

  of(state: BenchState): KnownState {
    const key = stateKey(this.#setup, state);
    const kept = this.#known.get(key);
    if (kept) return kept;
    const made = { id: this.#known.size, state };
    this.#known.set(key, made);
    return made;
  }
}

/** The moves of a whole bench, worked out whenever they are asked for. */
export const wholeMoves = (setup: BenchSetup): BenchMoves => {
  const states = new KnownStates(setup);
  return {
    known: (state) => states.of(state),
    from: ({ state }) =>
      benchRuns(setup, state).map((run) => ({
        run,
        seconds: runSeconds(setup, state, run),
        branches: runBranches(setup, state, run).map((branch) => ({
          chance: branch.chance,
          to: states.of(branch.state),
        })),
      })),
  };
};

/** A run of one part alone: all but its chances and what it costs. */
interface LoneRun {
  readonly run: BenchRun;
  readonly work: RunWork;
  /** By what it may show, in the order in which that is foretold. */
  readonly to: readonly KnownState[];
}

/**
 * The bench with one part on it, as far as neither odds nor costs matter: worked out once for all parts whose pieces are alike and that
 * are offered the same. What a part hides is nothing to itself, so that its outcomes alone are its branches.
 */
export class LoneGraph {
  readonly #setup: BenchSetup;
  readonly #states: KnownStates;
  readonly #runs = new Map<number, readonly LoneRun[]>();

  /** The setup of any of these parts, alone, hiding nothing. */
  constructor(setup: BenchSetup) {
    this.#setup = setup;
    this.#states = new KnownStates(setup);
  }

  /** The moves of one such part, at its odds and costs. */
  movesOf(setup: BenchSetup): BenchMoves {
    const { beliefs } = setup.parts[0] ?? never();
    return {
      known: (state) => this.#states.of(state),
      from: (at) =>
        this.#runsFrom(at).map(({ run, work, to }) => {
          const choice = run.choices[0] ?? never();
          const placed = { part: 0, host: run.host, firmware: run.firmware, choice };
          const { belief } = at.state.parts[0] ?? never();
          const foreseen = beliefs.foresee(belief, () => settingOf(setup, placed), settingKey(placed));
          return {
            run,
            seconds: workSeconds(setup, work),
            branches: foreseen.map(({ chance }, index) => ({ chance, to: to[index] ?? never() })),
          };
        }),
    };
  }

  #runsFrom(at: KnownState): readonly LoneRun[] {
    const kept = this.#runs.get(at.id);
    if (kept) return kept;
    const setup = this.#setup;
    const made = benchRuns(setup, at.state).map((run) => ({
      run,
      work: runWork(setup, at.state, run),
      to: runBranches(setup, at.state, run).map(({ state }) => this.#states.of(state)),
    }));
    this.#runs.set(at.id, made);
    return made;
  }
}
