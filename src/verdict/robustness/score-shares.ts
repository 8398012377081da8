import { seededNumbers } from '#quantity/seeded-numbers';
import { metricOf, rolesOf } from '../rubric/linked-roles.ts';
import { metricKey } from '../rubric/metric-kinds.ts';
import { isSettled, type RubricFacts } from '../rubric/metric-value.ts';
import type { Cap, Criterion, Rubric } from '../rubric/rubric-schema.ts';
import type { Variation } from './robustness.ts';
import { type Drawn, drawScore, drawWeights, type NumbersFor } from './sample-scores.ts';
import { type VarianceShare, varianceShares } from './variance-shares.ts';

/** The share of one weight or open fact in the spread of a score. */
export interface ScoreShare extends VarianceShare {
  readonly drawn: Drawn;
}

/** The spread of one product's score over the samples, and whose it is; in doubles. */
export type ScoreShares =
  | {
      readonly state: 'spread';
      readonly mean: number;
      readonly deviation: number;
      readonly shares: readonly ScoreShare[];
    }
  /** Nothing that is drawn moves the score, or it moved in no sample. */
  | { readonly state: 'still' }
  /** In some sample there is no score, so that there is no spread to share. */
  | { readonly state: 'not-always-scored' };

/**
 * Which weight and which open fact carries how much of the spread of a score? Everything is drawn as for the places
 * (`DRAWING`), each thing by a stream of its own; shares as in `varianceShares`, largest with others first. A share says how
 * far the score moves under these draws, not how likely a value is. Cost: samples × (things drawn + 2) scores.
 */
export const scoreShares = (rubric: Rubric, facts: RubricFacts, { vary, samples, seed }: Variation): ScoreShares => {
  const things = openThings(rubric, facts).filter(({ of }) => of !== 'weight' || vary.numerator > 0n);
  const places = new Map(things.map((thing, index) => [keyOf(thing), index]));
  let unscored = false;
  const figure = (point: readonly number[]): number => {
    const numbersFor: NumbersFor = (drawn) => {
      const place = places.get(keyOf(drawn));
      return seededNumbers(place === undefined ? 0 : (point[place] ?? 0) * 2 ** 32);
    };
    const score = drawScore(rubric, facts, { weights: drawWeights(rubric, vary, numbersFor), numbersFor });
    unscored ||= score === undefined;
    return score ?? 0;
  };
  const next = seededNumbers(seed);
  const found = varianceShares({ quantities: things.length, samples, next, figure });
  if (unscored) return { state: 'not-always-scored' };
  if (!found) return { state: 'still' };
  const shares = things.flatMap((drawn, index): readonly ScoreShare[] => {
    const share = found.shares[index];
    return share ? [{ drawn, ...share }] : [];
  });
  return {
    state: 'spread',
    mean: found.mean,
    deviation: Math.sqrt(found.variance),
    shares: shares.sort((one, other) => other.withOthers.share - one.withOthers.share),
  };
};

const keyOf = ({ of, id }: Drawn): string => `${of} ${id}`;

/** What may turn out this way or that and is looked at by the rubric; in an order that does not depend on that of a map. */
const openThings = (rubric: Rubric, facts: RubricFacts): readonly Drawn[] => {
  const items: readonly (Criterion | Cap)[] = [...Object.values(rubric.criteria), ...Object.values(rubric.caps ?? {})];
  const roles = new Set(items.flatMap((item) => rolesOf(item)));
  const metrics = new Set(items.map((item) => metricKey(metricOf(item))));
  const isOpen = (key: string): boolean => {
    const value = facts.metrics[key];
    return value !== undefined && !isSettled(value);
  };
  return [
    ...(facts.category === null ? [{ of: 'category', id: 'category' } as const] : []),
    ...Object.keys(rubric.criteria)
      .sort()
      .map((id) => ({ of: 'weight', id }) as const),
    ...[...roles]
      .filter((id) => facts.roles[id]?.answer === 'open')
      .sort()
      .map((id) => ({ of: 'role', id }) as const),
    ...[...metrics]
      .filter(isOpen)
      .sort()
      .map((id) => ({ of: 'metric', id }) as const),
  ];
};
