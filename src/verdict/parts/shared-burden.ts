import { sharedBurden } from '#routes/front/shared-burden';
import type { Fact } from '#routes/problem/route-problem';
import { rulesThatMatter } from '#schemes/eu-2023-1669/bases/best-search';
import type { Interpretations } from '#schemes/eu-2023-1669/interpretations';
import { countingRulesFor } from '#schemes/eu-2023-1669/readings';
import type { Groundwork } from '../index-bases.ts';
import type { BurdenVerdict } from '../verdict.ts';
import type { Names } from '../words.ts';

/** What would the routes to all priority parts together save, were one fastener already released? Most steps first, by what is shown. */
export const burdenVerdicts = (
  { problems }: Groundwork,
  readings: Interpretations,
  names: Names,
): readonly BurdenVerdict[] => {
  const problem = problems.pessimistic;
  const targets = problem.priorityParts.map((part): Fact => `free/${part}`);
  const rules = rulesThatMatter(problem, countingRulesFor(readings));
  return sharedBurden(problem, targets, { rules }).map(({ fastener, steps }) => ({
    fastener,
    name: names.fastener(fastener),
    steps,
    seconds: 0,
  }));
};
