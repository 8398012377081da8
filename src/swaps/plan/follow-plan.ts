import { seededNumbers } from '#quantity/seeded-numbers';
import type { SwapRun } from '../model/swap-run.ts';
import type { BenchRun, BenchState } from './bench-state.ts';
import { openParts } from './choose-run.ts';
import { drawRun } from './draw-run.ts';
import type { Planner } from './planner.ts';
import { runSeconds } from './run-cost.ts';
import { stateAfter } from './start-state.ts';

/** More runs than this in one plan are taken for an error of the planner. */
const MOST_RUNS = 500;

/** One run followed, with the state before it and after it. */
export interface Followed {
  readonly before: BenchState;
  readonly run: BenchRun;
  readonly after: BenchState;
}

/** Which runs does a plan make from a state on, when each leads where `lead` says? Ends when nothing is open or can be told. */
export const followPlan = (
  planner: Planner,
  start: BenchState,
  lead: (state: BenchState, run: BenchRun) => BenchState,
): readonly Followed[] => {
  const followed: Followed[] = [];
  let before = start;
  while (followed.length < MOST_RUNS) {
    const run = planner.choose(before);
    if (!run) break;
    const after = lead(before, run);
    followed.push({ before, run, after });
    before = after;
  }
  return followed;
};

/** What a plan is expected to take and to leave, over drawn cases. */
export interface Expectation {
  /** Mean bench time [min] and its standard error. */
  readonly minutes: number;
  readonly standardError: number;
  /** Expected number of parts left undecided, or tried in fewer hosts than asked for. */
  readonly open: number;
  readonly cases: number;
}

/** What does a plan take on average from these runs on, drawn from what the odds foretell? The same seed gives the same mean. */
export const expectedMinutes = (plan: Planner, runs: readonly SwapRun[]): Expectation => {
  const { cases, seed } = plan.limits;
  const draw = seededNumbers(seed);
  let [sum, squares, open] = [0, 0, 0];
  let planner = plan;
  for (let drawn = 0; drawn < cases; drawn++) {
    planner = planner.lightened();
    const start = stateAfter(planner.setup, runs);
    const followed = followPlan(planner, start, (state, run) => drawRun(planner.setup, state, { run, draw }));
    const minutes = followed.reduce((total, { before, run }) => total + runSeconds(planner.setup, before, run), 0) / 60;
    sum += minutes;
    squares += minutes ** 2;
    open += openParts(planner.setup, followed.at(-1)?.after ?? start, { ...planner.policy, mostRuns: Infinity }).length;
  }
  const mean = sum / cases;
  const variance = cases > 1 ? Math.max(0, (squares - cases * mean ** 2) / (cases - 1)) : 0;
  return { minutes: mean, standardError: Math.sqrt(variance / cases), open: open / cases, cases };
};
