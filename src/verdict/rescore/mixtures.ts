import { compare } from '#quantity/rational';
import { exactValue } from '../rubric/exact-text.ts';
import { metricOf } from '../rubric/linked-roles.ts';
import { metricKey } from '../rubric/metric-kinds.ts';
import type { Cap, Criterion, Metric, Rubric } from '../rubric/rubric-schema.ts';
import { quickScorer } from './quick-score.ts';

/** What of a rubric may change between two editions; the fourth factor of a change are the facts. */
const RUBRIC_FACTORS = ['weights', 'scales', 'metrics'] as const;

/** One of the three. */
export type RubricFactor = (typeof RUBRIC_FACTORS)[number];

/** Two rubrics, and every mixture of them that a split needs. */
export interface Mixtures {
  readonly before: Rubric;
  readonly after: Rubric;
  /** Which factors differ at all? */
  readonly changed: readonly RubricFactor[];
  /** The rubric with these factors from the later one, the others from the earlier. */
  mixed(turned: ReadonlySet<string>): Mixture;
}

/** One mixture with its scorer, made once for all records. */
export interface Mixture {
  readonly rubric: Rubric;
  readonly score: ReturnType<typeof quickScorer>;
}

/**
 * What lies between two rubrics? Criteria and caps are the same where their ids are. *Metrics*: which criteria and caps there
 * are, what they look at, and to what they apply. *Scales*: how values become points, when a cap holds and how high it is.
 * *Weights*: weights. What only one of the two has comes and goes with the metrics, its weight and scale with it; where a
 * criterion looks at another kind of value, its old scale would not fit, and the scale goes with the metric too.
 */
export const mixturesOf = (before: Rubric, after: Rubric): Mixtures => {
  const kept = new Map<string, Mixture>();
  return {
    before,
    after,
    changed: RUBRIC_FACTORS.filter((factor) => differs[factor](before, after)),
    mixed: (turned) => {
      const taken = RUBRIC_FACTORS.filter((factor) => turned.has(factor));
      const key = taken.join(' ');
      const known = kept.get(key);
      if (known) return known;
      const rubric = mixedRubric(before, after, new Set(taken));
      const mixture = { rubric, score: quickScorer(rubric) };
      kept.set(key, mixture);
      return mixture;
    },
  };
};

const mixedRubric = (before: Rubric, after: Rubric, turned: ReadonlySet<RubricFactor>): Rubric => {
  const pick = (factor: RubricFactor) => (turned.has(factor) ? after : before);
  const { criteria, caps = {}, ...head } = pick('metrics');
  const mixCriterion = (id: string, item: Criterion): Criterion => {
    if (!before.criteria[id] || !after.criteria[id]) return item;
    const weighed = pick('weights').criteria[id] ?? item;
    const scaled = pick('scales').criteria[id] ?? item;
    return { ...item, weight: weighed.weight, scale: sameScaling(item, scaled) ? scaled.scale : item.scale };
  };
  const mixCap = (id: string, item: Cap): Cap => {
    const scaled = pick('scales').caps?.[id];
    if (!scaled || !before.caps?.[id] || !after.caps?.[id] || !sameScaling(item, scaled)) return item;
    return { ...item, atMost: scaled.atMost, when: { ...scaled.when, metric: item.when.metric } };
  };
  return {
    ...head,
    criteria: Object.fromEntries(Object.entries(criteria).map(([id, item]) => [id, mixCriterion(id, item)])),
    caps: Object.fromEntries(Object.entries(caps).map(([id, item]) => [id, mixCap(id, item)])),
  };
};

/** Does a scale written for one of the two fit the other? Of one kind and in one unit. */
const sameScaling = (one: Criterion | Cap, other: Criterion | Cap): boolean => {
  const [a, b]: readonly Metric[] = [metricOf(one), metricOf(other)];
  return a?.of === b?.of && a?.unit === b?.unit;
};

const differs: Readonly<Record<RubricFactor, (before: Rubric, after: Rubric) => boolean>> = {
  weights: (before, after) =>
    shared(before.criteria, after.criteria).some(([a, b]) => compare(exactValue(a.weight), exactValue(b.weight)) !== 0),
  scales: (before, after) =>
    shared(before.criteria, after.criteria).some(([a, b]) => sameScaling(a, b) && !sameJson(a.scale, b.scale)) ||
    shared(before.caps ?? {}, after.caps ?? {}).some(
      ([a, b]) => sameScaling(a, b) && !sameJson(heightOf(a), heightOf(b)),
    ),
  metrics: (before, after) =>
    !sameJson(lookedAt(before.criteria), lookedAt(after.criteria)) ||
    !sameJson(lookedAt(before.caps ?? {}), lookedAt(after.caps ?? {})),
};

const shared = <Item>(
  before: Readonly<Record<string, Item>>,
  after: Readonly<Record<string, Item>>,
): readonly (readonly [Item, Item])[] =>
  Object.entries(before).flatMap(([id, item]) => {
    const other = after[id];
    return other === undefined ? [] : [[item, other] as const];
  });

const heightOf = ({ atMost, when: { above, below, is } }: Cap) => ({ atMost, above, below, is });

const lookedAt = (items: Readonly<Record<string, Criterion | Cap>>) =>
  Object.entries(items)
    .map(([id, item]) => [id, metricKey(metricOf(item)), item.applies ?? {}] as const)
    .sort(([a], [b]) => (a < b ? -1 : 1));

/** Two that differ in the order of keys only are taken to differ: it costs time, and their share comes out as 0. */
const sameJson = (one: unknown, other: unknown): boolean => JSON.stringify(one) === JSON.stringify(other);
