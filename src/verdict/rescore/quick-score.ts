import { compare, dividedBy, plus, type Rational, rational } from '#quantity/rational';
import { category as categories } from '#record/schema/product';
import type { RubricFacts } from '../rubric/metric-value.ts';
import type { Rubric } from '../rubric/rubric-schema.ts';
import { endsOf } from '../rubric/score/ends.ts';
import type { ModelCap, ModelGroup, ModelMetric } from '../rubric/score/model.ts';
import { type MetricSummary, metricSummaries, type SummaryOf } from './metric-summary.ts';
import { type Plan, plansOf } from './score-plan.ts';

/** Both ends of a score, exactly, and nothing else. */
export interface QuickScore {
  readonly low?: Rational;
  readonly high?: Rational;
  readonly mayBeNone: boolean;
}

/**
 * How is one rubric scored against many records? The same ends as `scoreFacts` gives, at a small part of its cost: which criteria
 * apply is worked out once for each category and set of roles, what a metric adds at most and at least once for each value it
 * takes. Whatever bears on nothing else is added up, and only the rest is searched: caps that hold at some possibilities and not
 * at others, and criteria of roles that the product may not have.
 */
export const quickScorer = (rubric: Rubric): ((facts: RubricFacts) => QuickScore) => {
  const planOf = plansOf(rubric);
  const summaryOf = metricSummaries(rubric);
  return (facts) => {
    let found: QuickScore | undefined;
    for (const category of facts.category === null ? categories.options : [facts.category]) {
      const score = scoreByPlan(planOf(category, facts.roles), facts, summaryOf);
      found = found === undefined ? score : spanning(found, score);
    }
    return found ?? { mayBeNone: true };
  };
};

const spanning = (one: QuickScore, other: QuickScore): QuickScore => {
  const outer = (a: Rational | undefined, b: Rational | undefined, sign: number): Rational | undefined =>
    a === undefined || (b !== undefined && compare(b, a) * sign > 0) ? b : a;
  const [low, high] = [outer(one.low, other.low, -1), outer(one.high, other.high, 1)];
  return {
    ...(low && high ? { low, high } : {}),
    mayBeNone: one.mayBeNone || other.mayBeNone,
  };
};

/** What bears on nothing else: sums of weight × points at both ends, without the division by the weights. */
interface Fixed {
  readonly weight: Rational;
  readonly low: Rational;
  readonly high: Rational;
  /** The lowest cap that holds whatever the open facts are. */
  readonly cap: Rational | undefined;
}

const scoreByPlan = (plan: Plan, facts: RubricFacts, summaryOf: SummaryOf): QuickScore => {
  const searched: ModelGroup[] = [];
  const unsteady: MetricSummary[] = [];
  const hasRoles = plan.groups.some(({ roles }) => roles.length > 0);
  let fixed: Fixed = { weight: rational(0n), low: rational(0n), high: rational(0n), cap: undefined };
  for (const group of plan.groups) {
    const summaries = group.metrics.map((metric) => summaryOf(metric, facts.metrics[metric.key]));
    const [only] = summaries;
    if (group.roles.length === 0 && only?.steady) fixed = withFixed(fixed, only);
    else if (!hasRoles && only) unsteady.push(only);
    else searched.push({ roles: group.roles, metrics: summaries.map(({ model }) => model) });
  }
  return searched.length > 0 ? searchedScore(searched, fixed) : summedScore(fixed, unsteady);
};

const withFixed = (sum: Fixed, { weight, low, high, cap }: Fixed): Fixed => ({
  weight: plus(sum.weight, weight),
  low: unreducedSum(sum.low, low),
  high: unreducedSum(sum.high, high),
  cap: lower(sum.cap, cap),
});

/**
 * Without open roles the weights are settled, and metrics bear on one another through caps only. The lowest score is the lowest
 * mean or the lowest cap that may hold. The highest is sought below each height: with no lower cap holding, the mean or that height.
 */
const summedScore = (fixed: Fixed, unsteady: readonly MetricSummary[]): QuickScore => {
  const { weight, low, cap } = unsteady.reduce(withFixed, fixed);
  if (weight.numerator === 0n) return { mayBeNone: true };
  const heights = unsteady.flatMap(({ model }) => model.caps.map(({ atMost }) => atMost));
  const tops = [undefined, ...heights].flatMap((height) => {
    const best = unsteady.map((summary) => highestUnder(summary, height));
    if (best.includes(undefined)) return [];
    const sum = best.reduce<Rational>((total, each) => unreducedSum(total, each ?? rational(0n)), fixed.high);
    return [lower(lower(dividedBy(sum, weight), height), fixed.cap) ?? sum];
  });
  const least = lower(dividedBy(low, weight), cap) ?? low;
  return { low: least, high: tops.sort(compare).at(-1) ?? least, mayBeNone: false };
};

/** The most a metric adds while none of its caps below a height holds, none at all without one; undefined where one must. */
const highestUnder = ({ model, worths }: MetricSummary, height: Rational | undefined): Rational | undefined => {
  const isUnder = ({ atMost }: ModelCap): boolean => height === undefined || compare(atMost, height) < 0;
  const caps = model.caps.filter(isUnder);
  return worths
    .filter((_, index) => caps.every(({ holds }) => holds[index] !== true))
    .sort(compare)
    .at(-1);
};

/** Reducing costs more than it saves while few are added up; the last division reduces. */
const unreducedSum = (a: Rational, b: Rational): Rational =>
  a.denominator === b.denominator
    ? { numerator: a.numerator + b.numerator, denominator: a.denominator }
    : {
        numerator: a.numerator * b.denominator + b.numerator * a.denominator,
        denominator: a.denominator * b.denominator,
      };

const lower = (a: Rational | undefined, b: Rational | undefined): Rational | undefined =>
  a === undefined || (b !== undefined && compare(b, a) < 0) ? b : a;

/** All that is fixed becomes one metric with two possibilities, its least and its most. */
const searchedScore = (searched: readonly ModelGroup[], { weight, low, high, cap }: Fixed): QuickScore => {
  const isWeighed = weight.numerator > 0n;
  const points = isWeighed ? [dividedBy(low, weight), dividedBy(high, weight)] : [];
  const fixed: ModelMetric = {
    key: 'fixed',
    candidates: [{ kind: 'least' }, { kind: 'most' }],
    criteria: isWeighed ? [{ id: 'fixed', openRoles: [], weight, points }] : [],
    caps: cap === undefined ? [] : [{ id: ' fixed', openRoles: [], atMost: cap, holds: [true, true] }],
  };
  const ends = endsOf([{ roles: [], metrics: [fixed] }, ...searched]);
  return {
    ...(ends.low && ends.high ? { low: ends.low.capped, high: ends.high.capped } : {}),
    mayBeNone: ends.mayBeNone,
  };
};
