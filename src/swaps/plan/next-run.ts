import type { Explanation } from '../model/explanation.ts';
import type { SwapRun } from '../model/swap-run.ts';
import { PLAN_LIMITS, type PlanLimits } from './plan-limits.ts';
import { Planner } from './planner.ts';
import { type SheetRun, sheetRun } from './sheet-run.ts';
import { stateAfter } from './start-state.ts';
import type { SwapProblem } from './swap-problem.ts';

/** The run to make next, and how each part stands. */
export interface NextRun {
  /** Undefined when nothing is open any more, or nothing at hand can tell more. */
  readonly run?: SheetRun;
  /** What stands of each part after the runs so far. */
  readonly standing: readonly { readonly part: string; readonly explanations: readonly Explanation[] }[];
}

/**
 * Which run is to be made next, after these runs of all parts in any order? It takes what was seen as it is, however unlikely it was
 * beforehand. `problem` is how the bench stood before the first of these runs: its matings are those left then.
 */
export const nextRun = (problem: SwapProblem, runs: readonly SwapRun[], limits: Partial<PlanLimits> = {}): NextRun =>
  nextFrom(new Planner(problem, { ...PLAN_LIMITS, ...limits }), runs);

/** The same with what a planner of this problem worked out before. */
export const nextFrom = (planner: Planner, runs: readonly SwapRun[]): NextRun => {
  const { setup } = planner;
  const state = stateAfter(setup, runs);
  const run = planner.choose(state);
  const standing = setup.parts.map(({ part }, index) => ({
    part: part.id,
    explanations: state.parts[index]?.belief.standing ?? [],
  }));
  return { ...(run ? { run: sheetRun(setup, state, run) } : {}), standing };
};
