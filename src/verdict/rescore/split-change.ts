import { plus, type Rational, rational } from '#quantity/rational';
import { type ExactText, exactText, shownScore } from '../rubric/exact-text.ts';
import type { RubricFacts } from '../rubric/metric-value.ts';
import type { Rubric } from '../rubric/rubric-schema.ts';
import { averageOverOrders, type Components, type FactorShares, sumOf } from './average-over-orders.ts';
import type { Mixtures } from './mixtures.ts';
import type { QuickScore } from './quick-score.ts';
import { componentsOf, plainScore } from './score-components.ts';

/** Among what is a change of a score split? */
export const FACTORS = ['weights', 'scales', 'metrics', 'facts'] as const;

/** One of the four. */
export type Factor = (typeof FACTORS)[number];

/** A score as its two ends, exactly and as shown; without ends where no criterion applies. */
export interface ScoreEnds {
  readonly low?: ExactText;
  readonly high?: ExactText;
  readonly shown?: { readonly low: string; readonly high: string };
  /** May it turn out that no criterion applies at all? */
  readonly mayBeNone: boolean;
}

/** The change of one end and its parts; the parts of the four factors add up to it exactly. [points of 100] */
export interface EndSplit extends Readonly<Record<Factor, ExactText>> {
  readonly change: ExactText;
  /** The same by criterion (`criteria/ID`) and for the caps; only what is not 0, and only where it was asked for. */
  readonly by?: Readonly<Record<string, Readonly<Partial<Record<Factor, ExactText>>>>>;
}

/** How a score changed, and what made it change. */
export interface ChangeSplit {
  readonly before: ScoreEnds;
  readonly after: ScoreEnds;
  /** Absent where there is no score before or after, or none on any way between. */
  readonly low?: EndSplit;
  readonly high?: EndSplit;
}

/** The facts of one product at two times. */
export interface FactsChange {
  readonly before: RubricFacts;
  readonly after: RubricFacts;
}

/**
 * What made the score of one product change between two rubrics and two states of its facts? Each end of the score is split
 * among weights, scales, metrics and facts, exactly: the average over every order in which they can be turned from old to new
 * (`averageOverOrders`). Both facts must hold the metrics of both rubrics. `byCriterion` splits each criterion's addend too.
 */
export const splitChange = (mixtures: Mixtures, facts: FactsChange, byCriterion = false): ChangeSplit => {
  const changed: readonly Factor[] = [...mixtures.changed, ...(differ(facts) ? (['facts'] as const) : [])];
  const scores = new Map<number, AtBothEnds>();
  const scoreAt = (turned: number): AtBothEnds => {
    const known = scores.get(turned);
    if (known) return known;
    const factors = new Set<string>(changed.filter((_, index) => ((turned >> index) & 1) === 1));
    const { rubric, score } = mixtures.mixed(factors);
    const taken = factors.has('facts') ? facts.after : facts.before;
    const found = byCriterion ? componentScore(rubric, taken) : wholeScore(score(taken));
    scores.set(turned, found);
    return found;
  };
  const splitOf = (end: 'low' | 'high'): EndSplit | undefined => {
    const shares = averageOverOrders(changed.length, (turned) => scoreAt(turned)[end]);
    return shares && endSplit(shares, changed, byCriterion);
  };
  const [low, high] = [splitOf('low'), splitOf('high')];
  return {
    before: scoreEnds(scoreAt(0)),
    after: scoreEnds(scoreAt(2 ** changed.length - 1)),
    ...(low && high ? { low, high } : {}),
  };
};

/** A score as sums of components at both ends; neither end where no criterion applies. */
interface AtBothEnds {
  readonly low?: Components;
  readonly high?: Components;
  readonly mayBeNone: boolean;
}

const wholeScore = ({ low, high, mayBeNone }: QuickScore): AtBothEnds =>
  low && high ? { low: new Map([['score', low]]), high: new Map([['score', high]]), mayBeNone } : { mayBeNone };

const componentScore = (rubric: Rubric, facts: RubricFacts): AtBothEnds => {
  const { low, high, mayBeNone } = plainScore(rubric, facts);
  return low && high ? { low: componentsOf(low), high: componentsOf(high), mayBeNone } : { mayBeNone };
};

const differ = ({ before, after }: FactsChange): boolean =>
  before !== after && JSON.stringify(before) !== JSON.stringify(after);

/** A score as plain data. */
const scoreEnds = ({ low, high, mayBeNone }: AtBothEnds): ScoreEnds => {
  if (!low || !high) return { mayBeNone };
  const [lowest, highest] = [sumOf(low), sumOf(high)];
  return {
    low: exactText(lowest),
    high: exactText(highest),
    shown: shownScore(lowest, highest),
    mayBeNone,
  };
};

const endSplit = (shares: FactorShares, changed: readonly Factor[], byCriterion: boolean): EndSplit => {
  const shareOf = (factor: Factor): Rational => {
    const components = shares[changed.indexOf(factor)];
    return components ? sumOf(components) : rational(0n);
  };
  const parts = FACTORS.map((factor) => [factor, shareOf(factor)] as const);
  const change = parts.reduce((sum, [, share]) => plus(sum, share), rational(0n));
  return {
    change: exactText(change),
    ...(Object.fromEntries(parts.map(([factor, share]) => [factor, exactText(share)])) as Record<Factor, ExactText>),
    ...(byCriterion ? { by: byComponent(shares, changed) } : {}),
  };
};

const byComponent = (shares: FactorShares, changed: readonly Factor[]): NonNullable<EndSplit['by']> => {
  const names = [...new Set(shares.flatMap((components) => [...components.keys()]))].sort();
  const rows = names.map((name) => {
    const parts = changed.flatMap((factor, index) => {
      const share = shares[index]?.get(name);
      return share && share.numerator !== 0n ? [[factor, exactText(share)] as const] : [];
    });
    return [name, Object.fromEntries(parts)] as const;
  });
  return Object.fromEntries(rows.filter(([, parts]) => Object.keys(parts).length > 0));
};
