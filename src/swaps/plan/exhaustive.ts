import { benchRuns } from './bench-runs.ts';
import type { BenchSetup } from './bench-setup.ts';
import type { BenchState } from './bench-state.ts';
import { stopSeconds, type Worth } from './prices.ts';
import { runBranches } from './run-branches.ts';
import { runSeconds } from './run-cost.ts';

/**
 * What does the best plan with at most so many runs cost [s]? By trying everything: every run, every result, to the end; nothing kept,
 * nothing left out. The slow oracle of the exact search: its time grows with the power of the runs.
 */
export const exhaustiveCost = (
  setup: BenchSetup,
  state: BenchState,
  { runs, worth }: { runs: number; worth: Worth },
): number => {
  let best = stopSeconds(setup, state, worth);
  if (best === 0 || runs === 0) return best;
  for (const run of benchRuns(setup, state)) {
    let cost = runSeconds(setup, state, run);
    for (const branch of runBranches(setup, state, run))
      cost += branch.chance * exhaustiveCost(setup, branch.state, { runs: runs - 1, worth });
    best = Math.min(best, cost);
  }
  return best;
};
