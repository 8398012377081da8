import { plus, type Rational, rational, times, toNumber } from '#quantity/rational';
import type { SeededNumbers } from '#quantity/seeded-numbers';
import { category as categories } from '#record/schema/product';
import { exactValue } from '../rubric/exact-text.ts';
import { metricOf, rolesOf } from '../rubric/linked-roles.ts';
import { metricKey } from '../rubric/metric-kinds.ts';
import type { MetricValue, RubricFacts } from '../rubric/metric-value.ts';
import type { Cap, Criterion, Rubric } from '../rubric/rubric-schema.ts';
import { candidatesOf } from '../rubric/score/candidates.ts';
import { type Candidate, conditionHolds, pointsAt, turningPoints, turningPointsOf } from '../rubric/score/points.ts';

/** How open facts are drawn, in words that stand beside every figure that rests on it. */
export const DRAWING =
  'an open number is drawn evenly between its ends, or where it has none evenly among the places at which its scale turns; open words, open roles and whether there is anything to measure evenly; all of it independently: assumptions, not findings';

/** Weights of one sample, by criterion. */
export type DrawnWeights = ReadonlyMap<string, number>;

/** What is drawn: the weight of a criterion, a metric by its key, whether there is a role, or the category. */
export type Drawn =
  | { readonly of: 'weight'; readonly id: string }
  | { readonly of: 'metric'; readonly id: string }
  | { readonly of: 'role'; readonly id: string }
  | { readonly of: 'category'; readonly id: 'category' };

/** Where the numbers come from that one thing is drawn by. */
export type NumbersFor = (drawn: Drawn) => SeededNumbers;

/** Which weights has one sample? Each drawn evenly within (1 ± vary) of its own, independently. */
export const drawWeights = (rubric: Rubric, vary: Rational, numbersFor: NumbersFor): DrawnWeights =>
  new Map(
    Object.entries(rubric.criteria)
      .sort(([a], [b]) => (a < b ? -1 : 1))
      .map(([id, { weight }]) => {
        const drawn = numbersFor({ of: 'weight', id })();
        return [id, toNumber(exactValue(weight)) * (1 + toNumber(vary) * (2 * drawn - 1))];
      }),
  );

/** What is the score of a product in one sample? In doubles; undefined where no criterion applies. */
export const drawScore = (
  rubric: Rubric,
  facts: RubricFacts,
  { weights, numbersFor }: { readonly weights: DrawnWeights; readonly numbersFor: NumbersFor },
): number | undefined => {
  const category = facts.category ?? pick(categories.options, numbersFor({ of: 'category', id: 'category' }));
  const roles = new Map(
    Object.entries(facts.roles)
      .sort(([a], [b]) => (a < b ? -1 : 1))
      .map(([role, { answer }]) => [
        role,
        answer === 'open' ? numbersFor({ of: 'role', id: role })() < 0.5 : answer === 'yes',
      ]),
  );
  const turns = turnsOf(rubric);
  const taken = new Map(
    [...turns.keys()].sort().flatMap((key) => {
      const value = facts.metrics[key];
      return value
        ? [[key, drawValue(value, turns.get(key) ?? [], numbersFor({ of: 'metric', id: key }))] as const]
        : [];
    }),
  );
  const isThere = (item: Criterion | Cap): boolean =>
    (item.applies?.categories === undefined || (item.applies.categories as readonly string[]).includes(category)) &&
    rolesOf(item).every((role) => roles.get(role) === true);
  let [weight, sum] = [0, 0];
  for (const [id, item] of Object.entries(rubric.criteria)) {
    const at = taken.get(metricKey(metricOf(item)));
    if (!at || !isThere(item)) continue;
    weight += weights.get(id) ?? 0;
    sum += (weights.get(id) ?? 0) * toNumber(pointsAt(item.scale, at));
  }
  const caps = Object.values(rubric.caps ?? {}).filter((cap) => {
    const at = taken.get(metricKey(metricOf(cap)));
    return at !== undefined && isThere(cap) && conditionHolds(cap.when, at);
  });
  return weight === 0 ? undefined : Math.min(sum / weight, ...caps.map(({ atMost }) => atMost));
};

const pick = <Item>(items: readonly Item[], next: SeededNumbers): Item =>
  items[Math.floor(next() * items.length)] as Item;

const kept = new WeakMap<Rubric, ReadonlyMap<string, readonly Rational[]>>();

const turnsOf = (rubric: Rubric): ReadonlyMap<string, readonly Rational[]> => {
  const known = kept.get(rubric);
  if (known) return known;
  const turns = new Map<string, readonly Rational[]>();
  for (const item of [...Object.values(rubric.criteria), ...Object.values(rubric.caps ?? {})]) {
    const key = metricKey(metricOf(item));
    turns.set(key, [
      ...(turns.get(key) ?? []),
      ...('when' in item ? turningPointsOf(item.when) : turningPoints(item.scale)),
    ]);
  }
  kept.set(rubric, turns);
  return turns;
};

const drawValue = (value: MetricValue, turns: readonly Rational[], next: SeededNumbers): Candidate => {
  const { range, words = [], none, whole } = value;
  const forms: readonly (() => Candidate)[] = [
    ...(range ? [() => drawNumber(value, turns, next)] : []),
    ...words.map((word) => (): Candidate => ({ kind: 'word', word })),
    ...(none ? [(): Candidate => ({ kind: 'none' })] : []),
  ];
  if (forms.length === 1 && range && range.low !== null && range.low === range.high && whole !== undefined)
    return { kind: 'at', value: exactValue(range.low) };
  return pick(forms, next)();
};

/** Steps of a drawn number: a millionth of its width. */
const STEPS = 1_000_000;

const drawNumber = (value: MetricValue, turns: readonly Rational[], next: SeededNumbers): Candidate => {
  const { range, whole } = value;
  if (!range || range.low === null || range.high === null)
    return pick(candidatesOf({ ...value, words: [], none: false }, turns), next);
  const [low, high] = [exactValue(range.low), exactValue(range.high)];
  const width = plus(high, { ...low, numerator: -low.numerator });
  if (whole) {
    const count = toNumber(width) + 1;
    return { kind: 'at', value: plus(low, rational(BigInt(Math.floor(next() * count)))) };
  }
  return {
    kind: 'at',
    value: plus(low, times(width, rational(BigInt(Math.floor(next() * (STEPS + 1))), BigInt(STEPS)))),
  };
};
