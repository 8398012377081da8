import { canonicalOrder } from './canonical-order.ts';
import type { CompiledProblem } from './compiled-problem.ts';
import { PlanSearch } from './plan-search.ts';
import { layOut } from './search-space.ts';

/** How long may a solver work? Whichever limit is met first ends the search; none means until it is proved. */
export interface SolveLimits {
  readonly seconds?: number;
  /** States to expand at most: the same on every machine. */
  readonly nodeLimit?: number;
  /** A clock [ms], only read for `seconds` and for the time the answer says it took. */
  readonly now?: () => number;
}

/** What is the cheapest plan, or the best found and the bound under it? Costs in integer milliseconds. */
export interface CompiledSolution {
  /** Undefined: no plan reaches the target (proved), or none was found in time. */
  readonly cost: number | undefined;
  readonly proved: boolean;
  /** No plan costs less. Equals `cost` when proved; infinite when there is none. */
  readonly bound: number;
  /** Indices into the problem's actions. */
  readonly plan: readonly number[];
  readonly expanded: number;
  readonly stored: number;
  readonly milliseconds: number;
}

/** Which sequence of actions reaches the target at least cost? A* with proof; see docs/method/neutral-problem.md. */
export const solveCompiled = (problem: CompiledProblem, limits: SolveLimits = {}): CompiledSolution => {
  const now = limits.now ?? (() => 0);
  const start = now();
  const deadline = limits.seconds === undefined ? Number.POSITIVE_INFINITY : start + limits.seconds * 1000;
  const ordered = canonicalOrder(problem);
  const search = new PlanSearch(layOut(ordered.problem));
  search.run({ deadline, now, nodeLimit: limits.nodeLimit ?? Number.POSITIVE_INFINITY });
  const { bestCost, bestPlan } = search;
  const plan = bestPlan.map((index) => ordered.original[index] as number);
  const bound = Math.min(search.bound, bestCost);
  const proved = bound === bestCost;
  const cost = bestCost === Number.POSITIVE_INFINITY ? undefined : bestCost;
  const { expanded, stored } = search;
  return { cost, proved, bound, plan, expanded, stored, milliseconds: now() - start };
};
