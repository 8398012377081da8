import { limits } from '#record/limits';
import type { Assessment } from '#record/schema/assessment';
import { type NextRun, nextRun } from '#swaps/plan/next-run';
import type { PlanLimits } from '#swaps/plan/plan-limits';
import { type PlanSoFar, planInStages, planSwaps, type SwapPlan } from '#swaps/plan/plan-swaps';
import type { SwapProblem } from '#swaps/plan/swap-problem';
import { groundworkOf } from '../index-bases.ts';
import { diagnosedSwaps } from './diagnosed-swaps.ts';
import { overLimit } from './over-limit.ts';
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

/**
 * The problem of a record's bench, and what in it is taken and not recorded. Throws kind `record` above the limits `planParts`,
 * `planHosts`, `planFirmware` and `planPieces`: a plan of more would take hours, or more memory than there is.
 */
export const statedProblem = (assessment: Assessment, { minutes, parts }: PlanOptions = {}): StatedProblem => {
  const { runs } = diagnosedSwaps(assessment);
  const stated = swapProblemOf({ groundwork: groundworkOf(assessment), runs, minutes, parts });
  refuseTooLarge(stated.problem);
  return stated;
};

const refuseTooLarge = ({ parts, hosts, firmware, donors }: SwapProblem): void => {
  const pieces = new Map<string, number>();
  for (const { part } of donors) pieces.set(part, (pieces.get(part) ?? 0) + 1);
  const [place = '', most = 0] = [...pieces].sort(([, a], [, b]) => b - a)[0] ?? [];
  const sizes = [
    ['planParts', 'swapBench/parts', parts.length],
    ['planHosts', 'swapBench/hosts', hosts.length],
    ['planFirmware', 'swapBench/firmware', firmware.length],
    ['planPieces', `swapBench/donors, part ${place}`, most],
  ] as const;
  for (const [name, where, size] of sizes) if (size > limits[name]) throw overLimit(name, where, size);
};

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

/** The same plan in stages, for whoever wants to read the run sheet before the rest is worked out; the last one is the whole. */
export function* swapPlanStages(
  assessment: Assessment,
  options: PlanOptions = {},
): Generator<StatedProblem & { readonly plan: PlanSoFar; readonly isWhole: boolean }> {
  const stated = statedProblem(assessment, options);
  if (!isBench(stated.problem)) return;
  const stages = planInStages(stated.problem, options.limits, madeRuns(assessment, stated.problem, options));
  for (;;) {
    const { done, value } = stages.next();
    yield { ...stated, plan: value, isWhole: done === true };
    if (done) return;
  }
}

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
