import { compare, negated, plus, type Rational, rational, times } from '#quantity/rational';
import { category as categories } from '#record/schema/product';
import type { RubricFacts } from '../rubric/metric-value.ts';
import type { Rubric } from '../rubric/rubric-schema.ts';
import { endsOf } from '../rubric/score/ends.ts';
import { type ModelGroup, modelOf } from '../rubric/score/model.ts';

/** Between which scores does a product lie while weights vary and facts are open? Both ends are reached. */
export interface WeightWidth {
  readonly low: Rational;
  readonly high: Rational;
  /** May it turn out that no criterion applies, so that there is no score? */
  readonly mayBeNone: boolean;
}

/** Mixtures of roles and weights that hang together and are all looked at: two to this number. */
const MOST_LINKED = 12;

/**
 * What is the lowest and the highest score, if each weight may lie anywhere between (1 − vary) and (1 + vary) times itself, each
 * by itself? Exact: a score is a ratio of sums that are straight in every weight, so that its ends lie where each weight is at
 * one of its ends. A weight that may vary is its lower end, and an extra that is there or not. Undefined where there is no
 * score, and where too much hangs together to look at all of it.
 */
export const weightWidth = (rubric: Rubric, facts: RubricFacts, vary: Rational): WeightWidth | undefined => {
  let found: WeightWidth | undefined;
  let none = false;
  for (const category of facts.category === null ? categories.options : [facts.category]) {
    const groups = modelOf(rubric, facts, category).map((group) => withExtras(group, vary));
    if (groups.some(({ roles }) => roles.length > MOST_LINKED)) return undefined;
    const { low, high, mayBeNone } = endsOf(groups);
    none ||= mayBeNone;
    if (!low || !high) continue;
    found = {
      low: found && compare(found.low, low.capped) < 0 ? found.low : low.capped,
      high: found && compare(found.high, high.capped) > 0 ? found.high : high.capped,
      mayBeNone: none,
    };
  }
  return found && { ...found, mayBeNone: none };
};

const withExtras = ({ roles, metrics }: ModelGroup, vary: Rational): ModelGroup => ({
  roles: [...roles, ...metrics.flatMap(({ criteria }) => criteria.map(({ id }) => extraOf(id)))],
  metrics: metrics.map((metric) => ({
    ...metric,
    criteria: metric.criteria.flatMap((criterion) => [
      { ...criterion, weight: times(criterion.weight, plus(rational(1n), negated(vary))) },
      {
        ...criterion,
        weight: times(criterion.weight, times(rational(2n), vary)),
        openRoles: [...criterion.openRoles, extraOf(criterion.id)],
      },
    ]),
  })),
});

/** No role has a blank in its name. */
const extraOf = (id: string): string => `extra weight of ${id}`;
