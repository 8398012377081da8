import type { SwapRun } from '../model/swap-run.ts';
import { type Expectation, expectedMinutes } from './follow-plan.ts';
import type { PlanLimits } from './plan-limits.ts';
import { Planner, PlanTables } from './planner.ts';
import { type Prospect, prospects } from './prospects.ts';
import type { SwapProblem } from './swap-problem.ts';

/** What one more specimen would tell. */
export interface OneMoreSpecimen {
  /** Parts and truths that could then be decided and cannot be now. */
  readonly decided: readonly Prospect[];
  /** Parts and truths that could still not be decided. */
  readonly stillOpen: readonly Prospect[];
  /** What trying these parts further would take with it, from the runs made already; undefined where it would decide nothing more. */
  readonly takes?: Expectation;
}

/** Cases drawn for what it would take: fewer than for the plan itself, which is what is acted on. */
const CASES = 2;

/**
 * What would one more specimen, of the kind of the last one and on its firmware, tell? Only the parts are planned anew of which some
 * truth cannot be decided now (`now`). Undefined where all can.
 */
export const oneMoreSpecimen = (
  problem: SwapProblem,
  limits: PlanLimits,
  { now, runs }: { readonly now: readonly Prospect[]; readonly runs: readonly SwapRun[] },
): OneMoreSpecimen | undefined => {
  const last = problem.hosts.at(-1);
  const open = now.filter(({ standing }) => standing.length > 1);
  if (!last || open.length === 0) return undefined;
  const another = { ...last, id: `${problem.hosts.map(({ id }) => id).join('+')}+1` };
  const parts = problem.parts.filter(({ id }) => open.some(({ part }) => part === id));
  const richer = { ...problem, parts, hosts: [...problem.hosts, another] };
  const tables = new PlanTables();
  const then = prospects(richer, limits, tables);
  const after = open.flatMap(({ part, truth }) => then.filter((one) => one.part === part && one.truth === truth));
  const decided = after.filter(({ standing }) => standing.length === 1);
  const stillOpen = after.filter(({ standing }) => standing.length > 1);
  if (decided.length === 0) return { decided, stillOpen };
  const planner = new Planner(richer, { ...limits, states: 0, cases: Math.min(CASES, limits.cases) }, tables);
  const made = runs.filter(({ part }) => parts.some(({ id }) => id === part));
  return { decided, stillOpen, takes: expectedMinutes(planner, made) };
};
