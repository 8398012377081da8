import { type SharedBurdenOptions, sharedBurden } from '#routes/front/shared-burden';
import { isUsable, leastTime } from '#routes/least-time/least-time';
import type { Fact, RouteAction, RouteProblem } from '#routes/problem/route-problem';
import { rulesThatMatter } from '#schemes/eu-2023-1669/bases/best-search';
import type { Interpretations } from '#schemes/eu-2023-1669/interpretations';
import { countingRulesFor } from '#schemes/eu-2023-1669/readings';
import type { Groundwork } from '../index-bases.ts';
import type { BurdenVerdict } from '../verdict.ts';
import type { Names } from '../words.ts';
import { keptByProblem } from './kept-by-problem.ts';

/** States a search for one least time may expand. */
const NODE_LIMIT = 20_000;

/** What would the routes to all priority parts together save, were one fastener already released? Most steps first, by what is shown. */
export const burdenVerdicts = (
  { problems }: Groundwork,
  readings: Interpretations,
  names: Names,
): readonly BurdenVerdict[] => {
  const problem = problems.pessimistic;
  const targets = problem.priorityParts.map((part): Fact => `free/${part}`);
  const rules = rulesThatMatter(problem, countingRulesFor(readings));
  const burden = keptByProblem(problem, `burden ${JSON.stringify(rules)}`, () =>
    sharedBurden(problem, targets, { rules, leastTime: leastTimes(problem) }),
  );
  return burden.map(({ fastener, steps, milliseconds = 0 }) => ({
    fastener,
    name: names.fastener(fastener),
    steps,
    seconds: milliseconds / 1000,
  }));
};

/** The least time to a target with some facts given: what is given is struck from every need, since a spared action can open a quicker route. */
const leastTimes = (problem: RouteProblem): NonNullable<SharedBurdenOptions['leastTime']> => {
  const usable: RouteProblem = { ...problem, actions: problem.actions.filter(isUsable) };
  return (target, given) => {
    const found = leastTime(spared(usable, new Set(given)), [target], { nodeLimit: NODE_LIMIT });
    return found.milliseconds === undefined ? undefined : { milliseconds: found.milliseconds, proved: found.proved };
  };
};

const spared = (problem: RouteProblem, given: ReadonlySet<Fact>): RouteProblem => {
  if (given.size === 0) return problem;
  const left = (facts: readonly Fact[]): readonly Fact[] => facts.filter((fact) => !given.has(fact));
  const without = (action: RouteAction): RouteAction => ({
    ...action,
    needs: left(action.needs),
    anyOf: action.anyOf
      .map((clause) => clause.map(left))
      .filter((clause) => clause.every((alternative) => alternative.length > 0)),
  });
  return { ...problem, actions: problem.actions.map(without) };
};
