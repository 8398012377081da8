import { compileNeutral } from '../neutral/compile-neutral.ts';
import type { NeutralProblem } from '../neutral/neutral-problem.ts';
import { type SolveLimits, solveCompiled } from '../neutral/solve-compiled.ts';

/** What does `unfasten solve` answer? Costs in seconds; a cost of null that is proved: the target cannot be reached. */
export interface NeutralAnswer {
  /** Cost of the sequence [s]; null when there is none, or none was found in time. */
  readonly cost: number | null;
  /** No sequence is cheaper. */
  readonly proved: boolean;
  /** No sequence costs less [s]; null when none exists. */
  readonly bound: number | null;
  readonly sequence: readonly string[];
  /** Time the solver took, by the clock it was given [ms]. */
  readonly milliseconds: number;
}

/** Which sequence reaches the target of a route problem at least cost? Durations count in whole milliseconds. */
export function answerNeutral(problem: NeutralProblem, limits: SolveLimits): NeutralAnswer {
  const { cost, proved, bound, plan, milliseconds } = solveCompiled(compileNeutral(problem), limits);
  return {
    cost: cost === undefined ? null : cost / 1000,
    proved,
    bound: Number.isFinite(bound) ? bound / 1000 : null,
    sequence: plan.map((index) => problem.actions[index]?.id ?? ''),
    milliseconds: Math.round(milliseconds * 1000) / 1000,
  };
}
