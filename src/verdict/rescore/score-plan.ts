import { metricOf, rolesOf, tiedGroups } from '../rubric/linked-roles.ts';
import { metricKey } from '../rubric/metric-kinds.ts';
import type { RubricFacts } from '../rubric/metric-value.ts';
import type { Cap, Criterion, Rubric } from '../rubric/rubric-schema.ts';
import { appliesTo } from '../rubric/score/model.ts';

/** A criterion or cap that may apply, by its id, with the roles it is open of. */
export interface PlannedItem {
  readonly id: string;
  readonly openRoles: readonly string[];
}

/** One metric with what looks at it. */
export interface PlannedMetric {
  readonly key: string;
  /** Tells this metric with these items apart from every other of the rubric's plans. */
  readonly signature: string;
  readonly criteria: readonly PlannedItem[];
  readonly caps: readonly PlannedItem[];
}

/** What of a rubric applies to products of one category with the same roles, in groups that do not bear on one another. */
export interface Plan {
  readonly groups: readonly { readonly roles: readonly string[]; readonly metrics: readonly PlannedMetric[] }[];
}

/** Which plan has a rubric for a category and a set of roles? Each is made once. */
export const plansOf = (rubric: Rubric): ((category: string, roles: RubricFacts['roles']) => Plan) => {
  const items = [...Object.values(rubric.criteria), ...Object.values(rubric.caps ?? {})];
  const asked = [...new Set(items.flatMap(rolesOf))].sort();
  const kept = new Map<string, Plan>();
  return (category, roles) => {
    const key = [category, ...asked.map((role) => roles[role]?.answer ?? 'open')].join(' ');
    const plan = kept.get(key) ?? planOf(rubric, category, roles);
    kept.set(key, plan);
    return plan;
  };
};

const planOf = (rubric: Rubric, category: string, roles: RubricFacts['roles']): Plan => {
  const isOpen = (role: string): boolean => roles[role]?.answer !== 'yes';
  const planned = <Item extends Criterion | Cap>(given: Readonly<Record<string, Item>>) =>
    Object.entries(given)
      .filter(([, item]) => appliesTo(item, category, roles) !== 'no')
      .map(([id, item]) => ({ id, metric: metricKey(metricOf(item)), openRoles: rolesOf(item).filter(isOpen) }));
  const criteria = planned(rubric.criteria);
  const caps = planned(rubric.caps ?? {});
  const looking = (given: ReturnType<typeof planned>, key: string): readonly PlannedItem[] =>
    given.filter(({ metric }) => metric === key).map(({ id, openRoles }) => ({ id, openRoles }));
  const ties = [...criteria, ...caps].map(({ metric, openRoles }) => ({ metric, roles: openRoles }));
  return {
    groups: tiedGroups(ties).map((group) => ({
      roles: group.roles,
      metrics: group.metrics.map((key) => {
        const [looked, capped] = [looking(criteria, key), looking(caps, key)];
        return { key, signature: JSON.stringify([key, looked, capped]), criteria: looked, caps: capped };
      }),
    })),
  };
};
