import { compare, dividedBy, negated, plus, type Rational, rational, times } from '#quantity/rational';
import { category as categories } from '#record/schema/product';
import type { RubricFacts } from '../rubric/metric-value.ts';
import type { Rubric } from '../rubric/rubric-schema.ts';
import { isThere, type Outcome } from '../rubric/score/choice.ts';
import { endsOf } from '../rubric/score/ends.ts';
import { type ModelGroup, modelOf } from '../rubric/score/model.ts';
import type { Components } from './average-over-orders.ts';

/** Name of the component that holds what caps take from the weighted mean. */
const CAPS = 'caps';

interface End {
  readonly groups: readonly ModelGroup[];
  readonly outcome: Outcome;
}

/** Both ends of a score without its explanation: all that a split needs, a small part of the cost of `scoreFacts`. */
export interface PlainScore {
  readonly low?: End;
  readonly high?: End;
  readonly mayBeNone: boolean;
}

/** Between which ends does a score lie? The same ends as `scoreFacts` gives. A category that is not known may be any. */
export const plainScore = (rubric: Rubric, facts: RubricFacts): PlainScore => {
  let low: End | undefined;
  let high: End | undefined;
  let mayBeNone = false;
  for (const category of facts.category === null ? categories.options : [facts.category]) {
    const groups = modelOf(rubric, facts, category);
    const ends = endsOf(groups);
    mayBeNone ||= ends.mayBeNone;
    if (ends.low && (!low || compare(ends.low.capped, low.outcome.capped) < 0)) low = { groups, outcome: ends.low };
    if (ends.high && (!high || compare(ends.high.capped, high.outcome.capped) > 0))
      high = { groups, outcome: ends.high };
  }
  return { ...(low ? { low } : {}), ...(high ? { high } : {}), mayBeNone };
};

/** Of what is the score at one end made? Of what each criterion adds, and of what caps take away. */
export const componentsOf = ({ groups, outcome }: End): Components => {
  const { choice, mean, capped } = outcome;
  const criteria = groups
    .flatMap(({ metrics }) => metrics)
    .flatMap(({ key, criteria }) => criteria.map((each) => ({ ...each, taken: choice.at.get(key) ?? 0 })))
    .filter((criterion) => isThere(criterion, choice.roles));
  const weights = criteria.reduce((sum, { weight }) => plus(sum, weight), rational(0n));
  const adds = criteria.map(({ id, weight, points, taken }): readonly [string, Rational] => [
    `criteria/${id}`,
    dividedBy(times(weight, points[taken] ?? rational(0n)), weights),
  ]);
  return new Map([...adds, [CAPS, plus(capped, negated(mean))]]);
};
