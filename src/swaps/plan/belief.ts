import type { RunSetting } from '../model/swap-run.ts';
import { type Belief, type BeliefGraph, stepKey } from './belief-graph.ts';
import type { MadeRun, Seen } from './made-run.ts';
import { priorWeight } from './prior-weight.ts';
import type { Odds } from './swap-problem.ts';

/** What one run may show of a part, how likely that is, and what is then known. */
export interface Branch {
  readonly outcome: Seen;
  readonly chance: number;
  readonly next: Belief;
}

/**
 * How likely is what a run may show, for a part with these odds? Each explanation keeps its odds for as long as it stands: the
 * chances are its odds among those that stand, so that they need no more than what stands.
 */
export class BeliefTable {
  readonly graph: BeliefGraph;
  readonly #odds: Odds;
  readonly #versions: number;
  readonly #branches = new Map<number, readonly Branch[]>();

  constructor(graph: BeliefGraph, odds: Odds, versions: number) {
    this.graph = graph;
    this.#odds = odds;
    this.#versions = versions;
  }

  /** What is known after these runs, in their order? */
  after(runs: readonly MadeRun[]): Belief {
    return this.graph.after(runs);
  }

  /** What may a further run show, how likely, and what is then known? Chances add up to 1. `key` names the setting, made when needed. */
  foresee(belief: Belief, setting: () => RunSetting, key: number): readonly Branch[] {
    const at = stepKey(belief, key);
    const kept = this.#branches.get(at);
    if (kept) return kept;
    const { foretold, next } = this.graph.step(belief, setting, key);
    const masses = new Map<Seen, number>();
    let total = 0;
    for (const { suspicion, shows } of foretold) {
      const weight = priorWeight(suspicion, this.#odds, this.#versions);
      masses.set(shows, (masses.get(shows) ?? 0) + weight);
      total += weight;
    }
    const branches = [...next].map(([outcome, known]) => ({
      outcome,
      chance: (masses.get(outcome) ?? 0) / total,
      next: known,
    }));
    this.#branches.set(at, branches);
    return branches;
  }

  /** What is known after a further run that another part hid? */
  unseen(belief: Belief, setting: () => RunSetting, key: number): Belief {
    return this.graph.unseen(belief, setting, key);
  }
}
