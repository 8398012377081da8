import type { Assessment } from '#record/schema/assessment';
import { type NextRun, nextRun } from '#swaps/plan/next-run';
import type { PlanLimits } from '#swaps/plan/plan-limits';
import { planSwaps, type SwapPlan } from '#swaps/plan/plan-swaps';
import type { SwapProblem } from '#swaps/plan/swap-problem';
import { groundworkOf } from '../index-bases.ts';
import { diagnosedSwaps } from './diagnosed-swaps.ts';
import { type StatedProblem, swapProblemOf } from './swap-problem-of.ts';

/** What else is a plan made from? */
export interface PlanOptions {
  /** Bench minutes available, instead of those of the record. */
  readonly minutes?: number | undefined;
  /** As if no run had been made; otherwise the plan goes on from the runs on record. */
  readonly anew?: boolean | undefined;
  /** Only these parts, instead of all of the bench. */
  readonly parts?: readonly string[] | undefined;
  readonly limits?: Partial<PlanLimits> | undefined;
}

/** The problem of a record's bench, and what in it is taken and not recorded. */
export const statedProblem = (assessment: Assessment, { minutes, parts }: PlanOptions = {}): StatedProblem =>
  swapProblemOf({ groundwork: groundworkOf(assessment), runs: diagnosedSwaps(assessment).runs, minutes, parts });

/**
 * Which runs tell the explanations apart in the least bench time, at this record's bench? Undefined where the record has no bench for
 * swaps (`swapBench/parts` and at least one host). Cost: see `planSwaps`.
 */
export const swapPlanOf = (
  assessment: Assessment,
  options: PlanOptions = {},
): (StatedProblem & { readonly plan: SwapPlan }) | undefined => {
  const stated = statedProblem(assessment, options);
  if (!isBench(stated.problem)) return undefined;
  return { ...stated, plan: planSwaps(stated.problem, options.limits, madeRuns(assessment, stated.problem, options)) };
};

/** Which run is to be made next at this record's bench? Undefined where the record has no bench for swaps. */
export const nextSwapOf = (
  assessment: Assessment,
  options: PlanOptions = {},
): (StatedProblem & { readonly next: NextRun }) | undefined => {
  const stated = statedProblem(assessment, options);
  if (!isBench(stated.problem)) return undefined;
  return { ...stated, next: nextRun(stated.problem, madeRuns(assessment, stated.problem, options), options.limits) };
};

const isBench = ({ parts, hosts }: SwapProblem): boolean => parts.length > 0 && hosts.length > 0;

/** The runs on record of the parts that are planned, in any host: what other hosts showed counts too. */
const madeRuns = (assessment: Assessment, { parts }: SwapProblem, { anew }: PlanOptions) => {
  if (anew) return [];
  const planned = new Set(parts.map(({ id }) => id));
  return [...diagnosedSwaps(assessment).runs.values()].flat().filter(({ part }) => planned.has(part));
};
