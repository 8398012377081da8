import type { Rational } from '#quantity/rational';
import { invariant } from '#quantity/unfasten-error';
import { exactValue } from '../exact-text.ts';
import { metricOf, rolesOf, tiedGroups } from '../linked-roles.ts';
import { metricKey } from '../metric-kinds.ts';
import type { Answer, MetricValue, RubricFacts } from '../metric-value.ts';
import type { Cap, Criterion, Rubric } from '../rubric-schema.ts';
import { candidatesOf } from './candidates.ts';
import { type Candidate, conditionHolds, pointsAt, turningPoints, turningPointsOf } from './points.ts';

/** A criterion that may apply: its weight, the roles it is open of, and its points at each possibility of its metric. */
export interface ModelCriterion {
  readonly id: string;
  readonly openRoles: readonly string[];
  readonly weight: Rational;
  readonly points: readonly Rational[];
}

/** A cap that may apply: its height, the roles it is open of, and at which possibilities of its metric it holds. */
export interface ModelCap {
  readonly id: string;
  readonly openRoles: readonly string[];
  readonly atMost: Rational;
  readonly holds: readonly boolean[];
}

/** One metric with its possibilities and everything that looks at it. */
export interface ModelMetric {
  readonly key: string;
  readonly candidates: readonly Candidate[];
  readonly criteria: readonly ModelCriterion[];
  readonly caps: readonly ModelCap[];
}

/** Metrics and open roles that hang together. */
export interface ModelGroup {
  readonly roles: readonly string[];
  readonly metrics: readonly ModelMetric[];
}

/** Does a criterion or cap apply to a product of this category with these roles? Open where a role is. */
export const appliesTo = (item: Criterion | Cap, category: string | null, roles: RubricFacts['roles']): Answer => {
  const { categories } = item.applies ?? {};
  const fits = categories === undefined || (category !== null && (categories as readonly string[]).includes(category));
  if (!fits && category !== null) return 'no';
  const answers = rolesOf(item).map((role) => roles[role]?.answer ?? 'open');
  if (answers.includes('no')) return 'no';
  return fits && !answers.includes('open') ? 'yes' : 'open';
};

/** What a rubric asks of one record, for one category: groups that do not bear on one another. */
export const modelOf = (rubric: Rubric, facts: RubricFacts, category: string | null): readonly ModelGroup[] => {
  const mayApply = ([, item]: readonly [string, Criterion | Cap]): boolean =>
    appliesTo(item, category, facts.roles) !== 'no';
  const criteria = Object.entries(rubric.criteria).filter(mayApply);
  const caps = Object.entries(rubric.caps ?? {}).filter(mayApply);
  const openRoles = (item: Criterion | Cap): readonly string[] =>
    rolesOf(item).filter((role) => facts.roles[role]?.answer !== 'yes');
  const ties = [...criteria, ...caps].map(([, item]) => ({
    metric: metricKey(metricOf(item)),
    roles: openRoles(item),
  }));
  const having = <Item extends Criterion | Cap>(items: readonly (readonly [string, Item])[], key: string) =>
    items.filter(([, item]) => metricKey(metricOf(item)) === key);
  return tiedGroups(ties).map(({ metrics, roles }) => ({
    roles,
    metrics: metrics.map((key) =>
      metricModel(key, factOf(facts, key), { criteria: having(criteria, key), caps: having(caps, key), openRoles }),
    ),
  }));
};

const factOf = (facts: RubricFacts, key: string): MetricValue => {
  const value = facts.metrics[key];
  invariant(value !== undefined, 'every metric of the rubric has a value', key);
  return value;
};

interface Looking {
  readonly criteria: readonly (readonly [string, Criterion])[];
  readonly caps: readonly (readonly [string, Cap])[];
  readonly openRoles: (item: Criterion | Cap) => readonly string[];
}

const metricModel = (key: string, value: MetricValue, { criteria, caps, openRoles }: Looking): ModelMetric => {
  const turns = [
    ...criteria.flatMap(([, { scale }]) => turningPoints(scale)),
    ...caps.flatMap(([, { when }]) => turningPointsOf(when)),
  ];
  const candidates = candidatesOf(value, turns);
  return {
    key,
    candidates,
    criteria: criteria.map(([id, item]) => ({
      id,
      openRoles: openRoles(item),
      weight: exactValue(item.weight),
      points: candidates.map((at) => pointsAt(item.scale, at)),
    })),
    caps: caps.map(([id, item]) => ({
      id,
      openRoles: openRoles(item),
      atMost: exactValue(item.atMost),
      holds: candidates.map((at) => conditionHolds(item.when, at)),
    })),
  };
};
