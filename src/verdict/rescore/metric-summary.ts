import { compare, plus, type Rational, rational, times } from '#quantity/rational';
import { invariant } from '#quantity/unfasten-error';
import { exactValue } from '../rubric/exact-text.ts';
import { metricOf } from '../rubric/linked-roles.ts';
import { metricKey } from '../rubric/metric-kinds.ts';
import type { MetricValue } from '../rubric/metric-value.ts';
import type { Rubric } from '../rubric/rubric-schema.ts';
import { candidatesOf } from '../rubric/score/candidates.ts';
import type { ModelCriterion, ModelMetric } from '../rubric/score/model.ts';
import { conditionHolds, pointsAt, turningPoints, turningPointsOf } from '../rubric/score/points.ts';
import type { PlannedItem, PlannedMetric } from './score-plan.ts';

/** What one metric with one value does to a score. */
export interface MetricSummary {
  readonly model: ModelMetric;
  /** Weight of its criteria, and their sums of weight × points at every possibility. */
  readonly weight: Rational;
  readonly worths: readonly Rational[];
  readonly low: Rational;
  readonly high: Rational;
  /** Does every cap hold at all possibilities or at none? Then `cap` is the lowest that holds. */
  readonly steady: boolean;
  readonly cap: Rational | undefined;
}

/** Looks a summary up, or makes it. Throws our bug where the facts lack the metric. */
export type SummaryOf = (metric: PlannedMetric, value: MetricValue | undefined) => MetricSummary;

/** Summaries kept for one rubric; their number has to end somewhere. */
const MOST_KEPT = 20_000;

/** How are the metrics of a rubric summed up? A value that comes again once for all, as far as room is. */
export const metricSummaries = (rubric: Rubric): SummaryOf => {
  const turns = turnsOf(rubric);
  const kept = new Map<string, MetricSummary>();
  const comesAgain = secondSight();
  return (metric, value) => {
    invariant(value !== undefined, 'every metric of the rubric has a value', metric.key);
    const key = `${metric.signature} ${valueKey(value)}`;
    const known = kept.get(key);
    if (known) return known;
    const summary = summaryOf(modelOf(rubric, { metric, value, turns: turns.get(metric.key) ?? [] }));
    if (!comesAgain(key)) return summary;
    if (kept.size >= MOST_KEPT) kept.clear();
    kept.set(key, summary);
    return summary;
  };
};

/** Keys are remembered by their hash in so many places; a newer one takes the place. A power of two. */
const PLACES = 1 << 13;

/**
 * Was a key seen before, not too long ago? Values such as prices differ from record to record: held, they would fill the memory
 * with what never comes again. Two keys of one hash (FNV-1a, 32 bits) only hold one summary more.
 */
const secondSight = (): ((key: string) => boolean) => {
  const seen = new Int32Array(PLACES);
  return (key) => {
    let hash = 0x811c9dc5;
    for (let index = 0; index < key.length; index += 1) hash = Math.imul(hash ^ key.charCodeAt(index), 0x01000193);
    const place = hash & (PLACES - 1);
    if (seen[place] === hash) return true;
    seen[place] = hash;
    return false;
  };
};

const keys = new WeakMap<MetricValue, string>();

/** What tells values apart as far as scores go: evidence and what is missing do not. */
const valueKey = (value: MetricValue): string => {
  const known = keys.get(value) ?? JSON.stringify([value.range, value.words, value.none, value.whole]);
  keys.set(value, known);
  return known;
};

const turnsOf = ({ criteria, caps = {} }: Rubric): ReadonlyMap<string, readonly Rational[]> => {
  const turns = new Map<string, Rational[]>();
  const add = (key: string, more: readonly Rational[]): void =>
    void turns.set(key, [...(turns.get(key) ?? []), ...more]);
  for (const item of Object.values(criteria)) add(metricKey(metricOf(item)), turningPoints(item.scale));
  for (const item of Object.values(caps)) add(metricKey(metricOf(item)), turningPointsOf(item.when));
  return turns;
};

interface Asked {
  readonly metric: PlannedMetric;
  readonly value: MetricValue;
  readonly turns: readonly Rational[];
}

const modelOf = (rubric: Rubric, { metric, value, turns }: Asked): ModelMetric => {
  const candidates = candidatesOf(value, turns);
  return {
    key: metric.key,
    candidates,
    criteria: metric.criteria.flatMap(({ id, openRoles }: PlannedItem) => {
      const item = rubric.criteria[id];
      if (!item) return [];
      return [
        { id, openRoles, weight: exactValue(item.weight), points: candidates.map((at) => pointsAt(item.scale, at)) },
      ];
    }),
    caps: metric.caps.flatMap(({ id, openRoles }: PlannedItem) => {
      const item = rubric.caps?.[id];
      if (!item) return [];
      const holds = candidates.map((at) => conditionHolds(item.when, at));
      return [{ id, openRoles, atMost: exactValue(item.atMost), holds }];
    }),
  };
};

const summaryOf = (model: ModelMetric): MetricSummary => {
  const { candidates, criteria, caps, key } = model;
  const worths = candidates.map((_, index) => worthAt(criteria, index));
  const sorted = [...worths].sort(compare);
  const [low, high] = [sorted[0], sorted.at(-1)];
  invariant(low !== undefined && high !== undefined, 'a value has a possibility', key);
  return {
    model,
    weight: criteria.reduce((sum, each) => plus(sum, each.weight), rational(0n)),
    worths,
    low,
    high,
    steady: caps.every(({ holds }) => new Set(holds).size === 1),
    cap: caps.flatMap(({ atMost, holds }) => (holds.includes(true) ? [atMost] : [])).sort(compare)[0],
  };
};

const worthAt = (criteria: readonly ModelCriterion[], index: number): Rational =>
  criteria.reduce((sum, { weight, points }) => plus(sum, times(weight, points[index] ?? rational(0n))), rational(0n));
