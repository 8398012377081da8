import type { PlanLimits } from './plan-limits.ts';
import { type Prospect, prospects } from './prospects.ts';
import type { SwapProblem } from './swap-problem.ts';

/** What one more specimen would tell. */
export interface OneMoreSpecimen {
  /** Parts and truths that could then be decided and cannot be now. */
  readonly decided: readonly Prospect[];
  /** Parts and truths that could still not be decided. */
  readonly stillOpen: readonly Prospect[];
}

/**
 * What would one more specimen, of the kind of the last one and on its firmware, tell? Only the parts are planned anew of which some
 * truth cannot be decided now. Undefined where all can.
 */
export const moreSpecimens = (
  problem: SwapProblem,
  limits: PlanLimits,
  now: readonly Prospect[],
): OneMoreSpecimen | undefined => {
  const last = problem.hosts.at(-1);
  const open = now.filter(({ standing }) => standing.length > 1);
  if (!last || open.length === 0) return undefined;
  const another = { ...last, id: `${problem.hosts.map(({ id }) => id).join('+')}+1` };
  const parts = problem.parts.filter(({ id }) => open.some(({ part }) => part === id));
  const then = prospects({ ...problem, parts, hosts: [...problem.hosts, another] }, limits);
  const after = open.flatMap(({ part, truth }) => then.filter((one) => one.part === part && one.truth === truth));
  return {
    decided: after.filter(({ standing }) => standing.length === 1),
    stillOpen: after.filter(({ standing }) => standing.length > 1),
  };
};
