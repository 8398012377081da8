import type { DevicePart } from '#record/device/device';
import { metricOf, rolesOf } from '../linked-roles.ts';
import { metricKey, wordsOf } from '../metric-kinds.ts';
import type { MetricValue, RubricFacts } from '../metric-value.ts';
import type { Metric, Role, Rubric } from '../rubric-schema.ts';
import { type FactsRequest, type MetricSource, metricSourceOf, partsOfRole, presenceOf } from './metric-source.ts';
import { pairingValue, reversibleValue } from './part-metrics.ts';
import { indexValue, informationValue, measuredValue, swapValue, updateYearsValue } from './product-metrics.ts';
import { reuseValue, stepsValue, toolValue } from './route-metrics.ts';
import { priceRatioValue, spareOfferedValue } from './spare-metrics.ts';
import { damageValue, expectedTimeValue } from './time-metrics.ts';
import { transferValue } from './transfer-metric.ts';
import { worstOf } from './worst-of.ts';

/**
 * Which facts does a rubric score a record from? The category, the roles it asks for, and the value of each of its metrics with
 * its width. Plain data: kept with the record and the method version, a new edition of the rubric is scored from them again.
 * This is the first half of `scoreByRubric`. Several rubrics may be asked for at once.
 */
export const rubricFacts = (request: FactsRequest, rubrics: readonly Rubric[]): RubricFacts => {
  const source = metricSourceOf(request);
  const items = rubrics.flatMap((rubric) => [...Object.values(rubric.criteria), ...Object.values(rubric.caps ?? {})]);
  const roles = [...new Set(items.flatMap(rolesOf))].sort();
  const metrics = new Map(items.map((item) => [metricKey(metricOf(item)), metricOf(item)]));
  return {
    category: request.assessment.product.category ?? null,
    roles: Object.fromEntries(roles.map((role) => [role, presenceOf(source, role)])),
    metrics: Object.fromEntries([...metrics].sort().map(([key, metric]) => [key, metricValue(metric, source)])),
  };
};

/** Which value has a metric for a record? Of several parts of one role the worst. */
const metricValue = (metric: Metric, source: MetricSource): MetricValue => {
  switch (metric.of) {
    case 'information':
      return informationValue(metric.audience ?? 'end-users', source);
    case 'update-years':
      return updateYearsValue(metric.updates ?? 'security', source);
    case 'measured':
      return measuredValue(metric, source);
    case 'index-score':
      return indexValue(metric, source);
    case 'swap-finding':
      return swapValue(metric.role ?? '', source);
    case 'spare-offered':
      return spareOfferedValue(metric.role as Role, source);
    default:
      return ofParts(metric, source);
  }
};

const ofParts = (metric: Metric, source: MetricSource): MetricValue => {
  const parts = partsOfRole(source, metric.role ?? '');
  const values = parts.map((part) => ofPart(part, metric, source));
  return values.length === 0 ? nothingRecorded(metric) : worstOf(values, wordsOf(metric));
};

/** Of a part that nobody recorded everything is open; where it is known to be absent, its criteria drop out. */
const nothingRecorded = (metric: Metric): MetricValue => {
  const words = wordsOf(metric);
  const open = { missing: [], evidence: [] };
  if (words) return { ...open, words, none: metric.of !== 'reversible' };
  const high = metric.of === 'damage' ? '1' : metric.of === 'pairing' ? '2' : null;
  return { ...open, range: { low: '0', high }, none: metric.of !== 'pairing' };
};

const ofPart = (part: DevicePart, metric: Metric, source: MetricSource): MetricValue => {
  const basis = metric.basis ?? 'best';
  switch (metric.of) {
    case 'steps':
      return stepsValue(part, basis, source);
    case 'reuse-class':
      return reuseValue(part, basis, source);
    case 'tool-class':
      return toolValue(part, basis, source);
    case 'expected-time':
      return expectedTimeValue(part, source);
    case 'damage':
      return damageValue(part, source);
    case 'reversible':
      return reversibleValue(part, source);
    case 'pairing':
      return pairingValue(part, source);
    case 'transfer-work':
      return transferValue(part, source);
    default:
      return priceRatioValue(part, source);
  }
};
