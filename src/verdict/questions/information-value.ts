import { compare, dividedBy, plus, type Rational, rational, times } from '#quantity/rational';

/** One way in which the unknowns may turn out together, how much weight it has, and what each option is worth then. */
export interface Outcome {
  /** Odds in any measure, from 0 up; only their shares of the sum count. */
  readonly weight: Rational;
  /** What each unknown turns out to be, by its id. */
  readonly answers: Readonly<Record<string, string>>;
  /** What each option is worth then, always in the same order and unit. */
  readonly worth: readonly Rational[];
}

/** What the best choice is worth in the mean, made now and made once something is known; in the unit of the options. */
export interface InformationValue {
  readonly now: Rational;
  readonly informed: Rational;
}

const NOTHING = rational(0n);

/**
 * What would it be worth to know some unknowns before one option is chosen? `informed` less `now` is the expected value of partial
 * perfect information on those unknowns, E[max E(worth | known)] − max E(worth), and with all unknowns that of perfect
 * information (Brennan et al. 2007, Medical Decision Making 27:448; formula from memory). Exact, by summing over all outcomes:
 * nothing is sampled, so the upward bias of sampled maxima does not arise. Unknowns need not be independent; values of several
 * do not add up. Throws a RangeError where no outcome has weight.
 */
export const informationValue = (outcomes: readonly Outcome[], known: readonly string[]): InformationValue => {
  const total = outcomes.reduce((sum, { weight }) => plus(sum, weight), NOTHING);
  if (total.numerator <= 0n) throw new RangeError('no outcome has weight');
  const groups = new Map<string, Outcome[]>();
  for (const outcome of outcomes) {
    const key = JSON.stringify(known.map((id) => outcome.answers[id]));
    const group = groups.get(key);
    if (group) group.push(outcome);
    else groups.set(key, [outcome]);
  }
  const informed = [...groups.values()].reduce((sum, group) => plus(sum, bestSum(group)), NOTHING);
  return { now: dividedBy(bestSum(outcomes), total), informed: dividedBy(informed, total) };
};

/** The largest sum of weight × worth that one option held through all outcomes gives. */
const bestSum = (outcomes: readonly Outcome[]): Rational => {
  const sums: Rational[] = [];
  for (const { weight, worth } of outcomes)
    for (const [option, value] of worth.entries()) sums[option] = plus(sums[option] ?? NOTHING, times(weight, value));
  return sums.reduce((best, sum) => (compare(sum, best) > 0 ? sum : best), sums[0] ?? NOTHING);
};
