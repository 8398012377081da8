import { compare, type Rational } from '#quantity/rational';
import { type SeededNumbers, seededNumbers } from '#quantity/seeded-numbers';
import type { Place } from '../rescore/places.ts';
import { type ExactText, exactText } from '../rubric/exact-text.ts';
import type { RubricFacts } from '../rubric/metric-value.ts';
import type { Rubric } from '../rubric/rubric-schema.ts';
import { canOutrank, type Frame, frameOf } from './outranks.ts';
import { drawScore, drawWeights } from './sample-scores.ts';
import { type WeightWidth, weightWidth } from './weight-width.ts';

/** One product with its facts. */
export interface Contender {
  readonly item: string;
  readonly product: string;
  readonly facts: RubricFacts;
}

/** What is varied, and how often it is drawn. */
export interface Variation {
  /** Each weight lies within (1 ± vary) of its own, independently; from 0 to below 1. */
  readonly vary: Rational;
  readonly samples: number;
  readonly seed: number;
}

/** How firm are score and place of one product? */
export interface Firmness {
  readonly item: string;
  readonly product: string;
  /** Lowest and highest score under every such weight and every way the open facts turn out; absent where not decided. */
  readonly score?: { readonly low: ExactText; readonly high: ExactText };
  /** No place outside these is possible; not every one between need be. */
  readonly possible: Place;
  /** Best and worst place over the samples; absent where it never had a score. */
  readonly drawn?: Place;
  /** In how many samples was it first, alone or with others? */
  readonly first: number;
  /** In how many samples did it have a score? */
  readonly scored: number;
}

/** Can one product ever score higher than another? Decided exactly, by their widths, seen in a sample, or open. */
export interface PairDecision {
  readonly item: string;
  readonly over: string;
  readonly answer: 'can' | 'cannot' | 'open';
  readonly by: 'decided' | 'widths' | 'sample' | 'nothing';
}

/** How firm is a ranking? */
export interface Robustness {
  readonly items: readonly Firmness[];
  readonly pairs: readonly PairDecision[];
}

/** Products of which every pair is looked at: their number squared. */
export const MOST_CONTENDERS = 200;

/**
 * How firm are scores and places of several products when weights vary and facts are open? Widths of scores and most pairs are
 * decided exactly; where they are not, samples show what can happen and never what cannot. Same input and seed, same result.
 * Cost: the square of the number of products, and samples times products.
 */
export const robustnessOf = (rubric: Rubric, contenders: readonly Contender[], variation: Variation): Robustness => {
  const { vary } = variation;
  const studied = contenders.map(({ facts }) => ({
    frame: frameOf(rubric, facts),
    width: weightWidth(rubric, facts, vary),
  }));
  const drawn = drawPlaces(rubric, contenders, variation);
  const pairs = studied.flatMap((one, index) =>
    studied.flatMap((other, at): readonly PairDecision[] => {
      const [item, over] = [contenders[index]?.item, contenders[at]?.item];
      if (index === at || item === undefined || over === undefined) return [];
      return [{ item, over, ...decide(one, other, { vary, seen: drawn.ahead.has(`${index} ${at}`) }) }];
    }),
  );
  return {
    pairs,
    items: contenders.map(({ item, product }, index) => {
      const [own, found] = [studied[index], drawn.places[index]];
      const surelyAhead = studied.filter(
        (other, at) => at !== index && own !== undefined && cannotReach(own, other, vary),
      );
      const mayBeAhead = pairs.filter(({ over, answer }) => over === item && answer !== 'cannot');
      return {
        item,
        product,
        ...(own?.width ? { score: { low: exactText(own.width.low), high: exactText(own.width.high) } } : {}),
        possible: { best: 1 + surelyAhead.length, worst: 1 + mayBeAhead.length },
        ...(found ? { drawn: found } : {}),
        first: drawn.first[index] ?? 0,
        scored: drawn.scored[index] ?? 0,
      };
    }),
  };
};

interface Studied {
  readonly frame: Frame | undefined;
  readonly width: WeightWidth | undefined;
}

/** A sample that was computed in doubles is believed only where the exact decision does not speak. */
const decide = (
  one: Studied,
  other: Studied,
  { vary, seen }: { readonly vary: Rational; readonly seen: boolean },
): Pick<PairDecision, 'answer' | 'by'> => {
  const exact = one.frame && other.frame ? canOutrank(one.frame, other.frame, { vary }) : undefined;
  if (exact !== undefined) return { answer: exact ? 'can' : 'cannot', by: 'decided' };
  if (one.width && other.width && compare(one.width.high, other.width.low) <= 0)
    return { answer: 'cannot', by: 'widths' };
  return seen ? { answer: 'can', by: 'sample' } : { answer: 'open', by: 'nothing' };
};

/** Is the other higher, whatever weights and open facts are? One that may have no score at all is not. */
const cannotReach = (one: Studied, other: Studied, vary: Rational): boolean => {
  const exact = one.frame && other.frame ? canOutrank(one.frame, other.frame, { vary, orEqual: true }) : undefined;
  if (exact !== undefined) return !exact;
  return one.width !== undefined && other.width?.mayBeNone === false && compare(one.width.high, other.width.low) < 0;
};

interface DrawnPlaces {
  readonly places: readonly (Place | undefined)[];
  readonly first: readonly number[];
  readonly scored: readonly number[];
  /** Pairs of which the first was ahead in a sample by more than rounding can be. */
  readonly ahead: ReadonlySet<string>;
}

/** Differences below this are taken for rounding in doubles [points]. */
const ROUNDING = 1e-9;

const drawPlaces = (
  rubric: Rubric,
  contenders: readonly Contender[],
  { vary, samples, seed }: Variation,
): DrawnPlaces => {
  const next = seededNumbers(seed);
  const numbersFor = (): SeededNumbers => next;
  const places: (Place | undefined)[] = contenders.map(() => undefined);
  const [first, scored] = [contenders.map(() => 0), contenders.map(() => 0)];
  const ahead = new Set<string>();
  for (let sample = 0; sample < samples; sample += 1) {
    const weights = drawWeights(rubric, vary, numbersFor);
    const scores = contenders.map(({ facts }) => drawScore(rubric, facts, { weights, numbersFor }));
    for (const [index, score] of scores.entries()) {
      if (score === undefined) continue;
      let place = 1;
      for (const [at, other] of scores.entries()) {
        if (other === undefined || other - score <= ROUNDING) continue;
        ahead.add(`${at} ${index}`);
        place += 1;
      }
      const known = places[index];
      places[index] = { best: Math.min(known?.best ?? place, place), worst: Math.max(known?.worst ?? place, place) };
      scored[index] = (scored[index] ?? 0) + 1;
      if (place === 1) first[index] = (first[index] ?? 0) + 1;
    }
  }
  return { places, first, scored, ahead };
};
