import { compare, negated, plus, type Rational, rational, times } from '#quantity/rational';

/** Chances of the answers of one question by answer id; they sum to 1. */
export type AnswerOdds = Readonly<Record<string, Rational>>;

/**
 * By how much does a width shrink in the mean when a question is answered? The width now less the mean width after, over the
 * answers' odds. An answer without odds counts as impossible. Throws a RangeError where the odds do not sum to 1.
 */
export const expectedNarrowing = (
  now: number,
  after: readonly (readonly [answer: string, width: number])[],
  odds: AnswerOdds,
): Rational => {
  const sum = Object.values(odds).reduce(plus, rational(0n));
  if (compare(sum, rational(1n)) !== 0)
    throw new RangeError(`the odds of the answers sum to ${sum.numerator}/${sum.denominator}, not to 1`);
  return after.reduce(
    (left, [answer, width]) => plus(left, negated(times(odds[answer] ?? rational(0n), rational(BigInt(width))))),
    rational(BigInt(now)),
  );
};
