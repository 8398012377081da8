import type { MissingFact } from '#quantity/explained';
import { compare, dividedBy, type Rational, rational, times } from '#quantity/rational';
import { category as categories } from '#record/schema/product';
import { exactText, exactValue, shownScore } from '../exact-text.ts';
import { metricOf, rolesOf } from '../linked-roles.ts';
import { metricKey, metricKinds, metricLabel, unitOf } from '../metric-kinds.ts';
import { type Answer, isSettled, type MetricValue, type RubricFacts, valueText } from '../metric-value.ts';
import type { Cap, Criterion, Rubric } from '../rubric-schema.ts';
import { candidatesOf } from './candidates.ts';
import { isThere, type Outcome } from './choice.ts';
import { type Ends, endsOf } from './ends.ts';
import { appliesTo, type ModelGroup, modelOf } from './model.ts';
import { type Candidate, conditionHolds, pointsAt, turningPoints, turningPointsOf } from './points.ts';
import type { CapScore, CriterionEnd, CriterionScore, RubricScore } from './rubric-score.ts';
import { scoreTree } from './score-tree.ts';

/** One end of the score with the model it was found in. */
export interface ScoredEnd {
  readonly groups: readonly ModelGroup[];
  readonly outcome: Outcome;
  readonly category: string | null;
}

/**
 * What does a rubric say of the facts of one record? The exact ends of the score over every way the open facts may turn out,
 * metrics taken as independent of one another; the same facts and rubric give the same score, whatever the order of criteria,
 * caps, words and ids. This is the second half of `scoreByRubric`; rescoring with kept facts needs only this one.
 */
export const scoreFacts = (rubric: Rubric, facts: RubricFacts): RubricScore => {
  const found = endsOverCategories(rubric, facts);
  const { low, high } = found;
  const caps = Object.entries(rubric.caps ?? {}).map(([id, cap]) => capScore(id, cap, facts));
  const criteria = Object.entries(rubric.criteria).map(([id, criterion]) =>
    criterionScore(id, criterion, { facts, low, high }),
  );
  const { id, title, edition, author, date, invented = false, note } = rubric;
  const ends = low && high ? endTexts(low.outcome.capped, high.outcome.capped) : undefined;
  return {
    rubric: { id, title, edition, author, date, invented, ...(note === undefined ? {} : { note }) },
    state: ends === undefined ? 'none' : ends.low === ends.high && !found.mayBeNone ? 'settled' : 'open',
    ...(ends ?? {}),
    mayBeNone: found.mayBeNone,
    criteria,
    caps,
    missing: distinctFacts([...criteria, ...caps].flatMap(({ missing }) => missing)),
    tree: scoreTree(rubric, facts, { low, high }),
  };
};

const endTexts = (low: Rational, high: Rational): Pick<RubricScore, 'low' | 'high' | 'shown'> => ({
  low: exactText(low),
  high: exactText(high),
  shown: shownScore(low, high),
});

interface FoundEnds {
  readonly low: ScoredEnd | undefined;
  readonly high: ScoredEnd | undefined;
  readonly mayBeNone: boolean;
}

/** A category that is not known may be any; the ends are those over all of them. */
const endsOverCategories = (rubric: Rubric, facts: RubricFacts): FoundEnds => {
  let low: ScoredEnd | undefined;
  let high: ScoredEnd | undefined;
  let mayBeNone = false;
  for (const category of facts.category === null ? categories.options : [facts.category]) {
    const groups = modelOf(rubric, facts, category);
    const ends: Ends = endsOf(groups);
    mayBeNone ||= ends.mayBeNone;
    if (ends.low && (!low || compare(ends.low.capped, low.outcome.capped) < 0))
      low = { groups, outcome: ends.low, category };
    if (ends.high && (!high || compare(ends.high.capped, high.outcome.capped) > 0))
      high = { groups, outcome: ends.high, category };
  }
  return { low, high, mayBeNone };
};

const distinctFacts = (facts: readonly MissingFact[]): readonly MissingFact[] => [
  ...new Map(facts.map((fact) => [`${fact.address}\n${fact.what}`, fact])).values(),
];

interface Scored {
  readonly facts: RubricFacts;
  readonly low: ScoredEnd | undefined;
  readonly high: ScoredEnd | undefined;
}

const criterionScore = (id: string, criterion: Criterion, { facts, low, high }: Scored): CriterionScore => {
  const applies = appliesTo(criterion, facts.category, facts.roles);
  const value = factOf(facts, criterion);
  const atLow = low && criterionEnd(id, criterion, low);
  const atHigh = high && criterionEnd(id, criterion, high);
  return {
    id,
    title: criterion.title,
    metric: metricLabel(criterion.metric),
    weight: exactText(exactValue(criterion.weight)),
    applies,
    value,
    valueText: textOf(value, criterion),
    ...(applies === 'no' ? {} : { points: pointsRange(criterion, value) }),
    ...(atLow ? { atLow } : {}),
    ...(atHigh ? { atHigh } : {}),
    missing: missingOf(criterion, value, { applies, facts }),
  };
};

const NOT_LOOKED_AT: MetricValue = { none: false, missing: [], evidence: [] };

const factOf = (facts: RubricFacts, item: Criterion | Cap): MetricValue =>
  facts.metrics[metricKey(metricOf(item))] ?? NOT_LOOKED_AT;

const textOf = (value: MetricValue, item: Criterion | Cap): string => {
  const metric = metricOf(item);
  return valueText(value, { unit: unitOf(metric), none: metricKinds[metric.of].none });
};

/** Fewest and most points over what the metric may be: a scale is straight between its turns. */
const pointsRange = ({ scale }: Criterion, value: MetricValue): NonNullable<CriterionScore['points']> => {
  const points = candidatesOf(value, turningPoints(scale)).map((at) => pointsAt(scale, at));
  const sorted = [...points].sort(compare);
  return { low: exactText(sorted[0] ?? rational(0n)), high: exactText(sorted.at(-1) ?? rational(0n)) };
};

/** What does a criterion come to in a choice? Undefined where it does not apply there. */
const criterionEnd = (id: string, criterion: Criterion, { groups, outcome }: ScoredEnd): CriterionEnd | undefined => {
  const key = metricKey(criterion.metric);
  const metric = groups.flatMap(({ metrics }) => metrics).find((each) => each.key === key);
  const model = metric?.criteria.find((each) => each.id === id);
  const index = outcome.choice.at.get(key) ?? 0;
  const at = metric?.candidates[index];
  const points = model?.points[index];
  if (!model || !at || !points || !isThere(model, outcome.choice.roles)) return undefined;
  const share = dividedBy(times(model.weight, points), outcome.weights);
  return {
    value: valueText(possibility(at), { unit: unitOf(criterion.metric), none: metricKinds[criterion.metric.of].none }),
    points: exactText(points),
    contribution: exactText(share),
  };
};

/** One possibility as a value with nothing open. */
const possibility = (at: Candidate): MetricValue => {
  const bare = { missing: [], evidence: [] };
  if (at.kind === 'word') return { ...bare, words: [at.word], none: false };
  if (at.kind === 'none') return { ...bare, none: true };
  if (!('value' in at)) return { ...bare, range: { low: null, high: null }, none: false };
  const text = exactText(at.value);
  return { ...bare, range: at.kind === 'at' ? { low: text, high: text } : { low: text, high: null }, none: false };
};

const missingOf = (
  item: Criterion | Cap,
  value: MetricValue,
  { applies, facts }: { readonly applies: Answer; readonly facts: RubricFacts },
): readonly MissingFact[] => {
  if (applies === 'no') return [];
  const roles = rolesOf(item).flatMap((role) => {
    const presence = facts.roles[role];
    return presence?.answer === 'open' ? presence.missing : [];
  });
  const ofCategory =
    item.applies?.categories && facts.category === null
      ? [{ address: 'product/category', what: 'which kind of product it is', remedy: 'record the category' }]
      : [];
  return distinctFacts([...ofCategory, ...roles, ...(isSettled(value) ? [] : value.missing)]);
};

const capScore = (id: string, cap: Cap, facts: RubricFacts): CapScore => {
  const applies = appliesTo(cap, facts.category, facts.roles);
  const value = factOf(facts, cap);
  return {
    id,
    title: cap.title,
    metric: metricLabel(cap.when.metric),
    atMost: exactText(exactValue(cap.atMost)),
    applies,
    holds: applies === 'no' ? 'no' : capHolds(cap, value, applies),
    valueText: textOf(value, cap),
    missing: missingOf(cap, value, { applies, facts }),
  };
};

const capHolds = ({ when }: Cap, value: MetricValue, applies: Answer): Answer => {
  const held = candidatesOf(value, turningPointsOf(when)).map((at) => conditionHolds(when, at));
  if (!held.includes(true)) return 'no';
  return held.includes(false) || applies === 'open' ? 'open' : 'yes';
};
