import type { BeliefTable } from './belief.ts';
import type { BeliefGraph } from './belief-graph.ts';
import { type BenchMoves, LoneGraph } from './bench-moves.ts';
import { type BenchSetup, never, type PartSetup } from './bench-setup.ts';
import type { BenchState, HostState, PartState } from './bench-state.ts';
import { BestPlan, type Prices, TooManyStates } from './best-plan.ts';
import { leastSeconds, likelySeconds, stopSeconds, type Worth } from './prices.ts';
import type { LayerCost, SwapProblem } from './swap-problem.ts';

/** How large a share of what all parts have in common is one part charged? Each from 0 to 1. */
export interface Shares {
  /** Of start and soak, and of an update. */
  readonly run: number;
  /** Of opening and shutting each layer. */
  readonly layer: Readonly<Record<string, number>>;
}

/**
 * What does one part cost at least from a state on, were it alone on the bench and charged only its share of what it has in common
 * with others [s]? Exact search over so many runs, the rest counted at the least it can be. Where the shares of all parts add up to
 * no more than 1, the sum over the parts is a bound for all of them together: whatever is done for all of them is also done for
 * each, every run and opening that one part needs is paid for at least once, and what other parts hide only takes from what is
 * seen.
 */
export class SoloValues {
  readonly #plans = new Map<string, BestPlan>();
  readonly #byShares = new WeakMap<Shares, Map<string, BestPlan>>();
  readonly #tables = new Map<BeliefTable, number>();
  readonly #worth: Worth;
  readonly #lone: LoneGraphs;

  constructor(worth: Worth, lone: LoneGraphs = new LoneGraphs()) {
    this.#worth = worth;
    this.#lone = lone;
  }

  /**
   * The least that a part alone can cost [s], looked at over up to so many runs: fewer where that meets more states than one part is worth,
   * which is a bound too, only a looser one.
   */
  least(setup: BenchSetup, charged: Charged, runs: number): number {
    const plan = this.#planOf(setup, charged, leastPlan);
    const state = soloState(setup, charged);
    let least = 0;
    try {
      for (let ahead = 1; ahead <= runs; ahead++) least = plan.step(state, ahead).cost;
    } catch (error) {
      if (!(error instanceof TooManyStates)) throw error;
    }
    return least;
  }

  /** What a part alone is likely to cost [s]: over so many runs exactly, beyond them by what still stands. No bound. */
  likely(setup: BenchSetup, charged: Charged, runs: number): number {
    return this.#planOf(setup, charged, likelyPlan).step(soloState(setup, charged), runs).cost;
  }

  /** Looked up by the very shares first: to spell them out takes longer than most look-ups. */
  #planOf(setup: BenchSetup, charged: Charged, make: typeof leastPlan): BestPlan {
    const kept = this.#byShares.get(charged.shares) ?? new Map<string, BestPlan>();
    this.#byShares.set(charged.shares, kept);
    const at = `${make.name} ${charged.part}`;
    const plan = kept.get(at) ?? this.#planLike(setup, charged, make);
    kept.set(at, plan);
    return plan;
  }

  /** Parts that are alike in all but their ids share one search. */
  #planLike(setup: BenchSetup, { part, shares }: Charged, make: typeof leastPlan): BestPlan {
    const of = setup.parts[part] ?? never();
    const problem = soloProblem(setup.problem, of, shares);
    const table = this.#tables.get(of.beliefs) ?? this.#tables.size;
    this.#tables.set(of.beliefs, table);
    const { parts, layers, startSeconds, soakSeconds } = problem;
    const key = JSON.stringify([
      make.name,
      table,
      { ...parts[0], id: '', odds: {} },
      layers,
      startSeconds + soakSeconds,
    ]);
    const kept = this.#plans.get(key);
    if (kept) return kept;
    const [alone] = problem.parts;
    const lone = { problem, parts: [{ ...of, part: alone ?? never() }] };
    const plan = make(lone, this.#worth, { moves: this.#lone.movesOf(lone) });
    this.#plans.set(key, plan);
    return plan;
  }
}

/** Graphs of parts alone, by what they depend on. */
export class LoneGraphs {
  readonly #graphs = new Map<BeliefGraph, Map<string, LoneGraph>>();

  /** The moves of one part alone, its layers named by their place above it, at its odds and costs. */
  movesOf(setup: BenchSetup): BenchMoves {
    const { part, pieces, beliefs } = setup.parts[0] ?? never();
    const { layers, matings, authoriseSeconds, calibrateSeconds, identitySeconds } = part;
    const offers = [authoriseSeconds, calibrateSeconds, identitySeconds].map((offer) => offer !== undefined);
    const mated = [...setup.problem.hosts.map(({ id }) => id), ...pieces.map(({ key }) => key)];
    const key = JSON.stringify([layers.length, offers, matings && mated.map((end) => matings[end])]);
    const likeIt = this.#graphs.get(beliefs.graph) ?? new Map<string, LoneGraph>();
    this.#graphs.set(beliefs.graph, likeIt);
    const graph = likeIt.get(key) ?? new LoneGraph(setup);
    likeIt.set(key, graph);
    return graph.movesOf(setup);
  }
}

/** One part as it stands, with the hosts as they stand, and the shares it is charged. */
export interface Charged {
  readonly part: number;
  readonly state: PartState;
  readonly hosts: readonly HostState[];
  readonly shares: Shares;
}

/** States that the bound of one part may meet: two specimens without donors need some hundred. */
const MOST_STATES = 600;
/** A part alone never meets more within the run or two that it is looked ahead. */
const MOST_LIKELY_STATES = 1_000_000;

/** A search for a lower bound: where it runs out of runs it goes on with the least that is still to pay. */
export const leastPlan = (
  setup: BenchSetup,
  worth: Worth,
  { moves, states = MOST_STATES }: { moves: BenchMoves; states?: number },
): BestPlan => {
  const end = (state: BenchState): number => leastSeconds(setup, state, worth);
  const prices: Prices = {
    stop: (state) => stopSeconds(setup, state, worth),
    end,
    // A shorter search is a bound for a longer one, and sorts out most runs before they are followed up.
    least: (state, runsLeft) => (runsLeft > 2 ? plan.step(state, runsLeft - 2).cost : end(state)),
  };
  const plan: BestPlan = new BestPlan(moves, prices, states);
  return plan;
};

/** A search that goes on, where it runs out of runs, with what telling the rest apart is likely to take. */
const likelyPlan: typeof leastPlan = (setup, worth, { moves, states = MOST_LIKELY_STATES }) =>
  new BestPlan(
    moves,
    {
      stop: (state) => stopSeconds(setup, state, worth),
      end: (state) => likelySeconds(setup, state, worth),
      least: (state) => leastSeconds(setup, state, worth),
    },
    states,
  );

/** Layers are named by their place above the part. */
const soloState = (setup: BenchSetup, { part, state, hosts }: Charged): BenchState => {
  const { layers } = (setup.parts[part] ?? never()).part;
  const open = (host: HostState): readonly string[] =>
    layers.flatMap((layer, index) => (host.open.includes(layer) ? [`${index}`] : []));
  return { hosts: hosts.map((host) => ({ ...host, open: open(host) })), parts: [state], hidden: [] };
};

const soloProblem = (problem: SwapProblem, { part }: PartSetup, { run, layer }: Shares): SwapProblem => ({
  ...problem,
  parts: [{ ...part, layers: part.layers.map((_, index) => `${index}`) }],
  layers: Object.fromEntries(part.layers.map((id, index) => [index, scaled(problem.layers[id], layer[id] ?? 1)])),
  startSeconds: problem.startSeconds * run,
  soakSeconds: problem.soakSeconds * run,
  updateSeconds: problem.updateSeconds * run,
  hides: 0,
});

const scaled = (cost: LayerCost | undefined, share: number): LayerCost => ({
  openSeconds: (cost?.openSeconds ?? 0) * share,
  closeSeconds: (cost?.closeSeconds ?? 0) * share,
});

/** Equal shares for each of these parts of all they have in common; `counted` may round how many it is shared by. */
export const equalShares = (
  setup: BenchSetup,
  parts: readonly number[],
  counted: (count: number) => number = (count) => count,
): Shares => {
  const sharing: Record<string, number> = {};
  for (const part of parts)
    for (const id of (setup.parts[part] ?? never()).part.layers) sharing[id] = (sharing[id] ?? 0) + 1;
  return {
    run: 1 / counted(Math.max(1, parts.length)),
    layer: Object.fromEntries(Object.entries(sharing).map(([id, count]) => [id, 1 / counted(count)])),
  };
};
