import { metricOf, rolesOf } from '#verdict/rubric/linked-roles';
import { metricKey } from '#verdict/rubric/metric-kinds';
import type { RubricFacts } from '#verdict/rubric/metric-value';
import type { Cap, Criterion, Rubric } from '#verdict/rubric/rubric-schema';

/** Which criteria and caps of some rubrics ask for a metric or role that kept facts do not have? As rubrics of these alone. */
export const unanswered = (rubrics: readonly Rubric[], facts: RubricFacts | undefined): readonly Rubric[] => {
  if (!facts) return rubrics;
  const asks = ([, item]: readonly [string, Criterion | Cap]): boolean =>
    facts.metrics[metricKey(metricOf(item))] === undefined ||
    rolesOf(item).some((role) => facts.roles[role] === undefined);
  return rubrics.flatMap((rubric) => {
    const criteria = Object.entries(rubric.criteria).filter(asks);
    const caps = Object.entries(rubric.caps ?? {}).filter(asks);
    if (criteria.length + caps.length === 0) return [];
    return [{ ...rubric, criteria: Object.fromEntries(criteria), caps: Object.fromEntries(caps) }];
  });
};

/** Facts known before, and those found now. */
export const joinedFacts = (known: RubricFacts | undefined, found: RubricFacts): RubricFacts =>
  known
    ? { ...found, roles: { ...known.roles, ...found.roles }, metrics: { ...known.metrics, ...found.metrics } }
    : found;
