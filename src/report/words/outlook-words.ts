import type { BasisOutlook, OutlookEnd, OutlookFigure } from '#verdict/outlook/outlook';
import type { OutlookQuestion } from '#verdict/outlook/outlook-question';
import type { QuestionList } from '#verdict/outlook/ranked-questions';
import { exactValue } from '#verdict/rubric/exact-text';
import { scoreWords } from './terms.ts';

/** How is a figure of the index called in a ledger of ends? */
export function objectiveWords(figure: OutlookFigure['figure']): string {
  return figure === 'R' ? 'Index R' : `${scoreWords[figure]} (${figure})`;
}

/** Is an end proved, and if not, how near is the nearest that answers lead to? One clause. */
export function endKindWords({ exact, gap, witness }: OutlookEnd): string {
  if (exact) return 'exact';
  if (witness === undefined) return 'bound; no answers found that lead to a figure';
  const { value, factsOpen } = witness;
  return `bound; answers found lead to ${value}, ${gap ?? '0'} short of it${factsOpen ? ', while facts are open' : ''}`;
}

/** What do the answers behind an end need? The figure as it stands needs none. */
export function witnessWords({ witness }: OutlookEnd): readonly string[] {
  if (witness === undefined) return [];
  return witness.answers.map(({ asks, says }) => `${asks}: ${says}`);
}

/** Answers of a question that leave the same ends: said together, so that a reader sees what differs. */
export interface EffectGroup {
  readonly answers: readonly OutlookQuestion['effects'][number][];
  /** What they leave: the first of them stands for all. */
  readonly leaves: OutlookQuestion['effects'][number];
}

/** Which answers of a question come to the same? Groups in the order in which their first answer stands. */
export function effectGroups({ effects }: OutlookQuestion): readonly EffectGroup[] {
  const groups = new Map<string, OutlookQuestion['effects'][number][]>();
  for (const effect of effects) {
    const { low, high, letters, mayBeNotScorable } = effect;
    const key = JSON.stringify([low, high, letters, mayBeNotScorable]);
    groups.set(key, [...(groups.get(key) ?? []), effect]);
  }
  return [...groups.values()].flatMap((answers) => (answers[0] ? [{ answers, leaves: answers[0] }] : []));
}

/** What is guaranteed whatever the answer is? One clause. */
export function narrowingWords({ guaranteed, guaranteedSteps }: OutlookQuestion): string {
  const ofSteps = guaranteedSteps > 0 ? ` and the open steps by at least ${guaranteedSteps}` : '';
  if (Number(guaranteed) > 0) return `narrows R by at least ${guaranteed}${ofSteps}`;
  return guaranteedSteps > 0
    ? `narrows R for certain by nothing, the open steps by at least ${guaranteedSteps}`
    : 'narrows R only by some of its answers';
}

/**
 * A chance that may be higher: whole tenths of a percent, rounded down. A lower end at 0 shows no chance, which is not to say that
 * there is none; one above 0 yet under a tenth is never rounded to none.
 */
function atLeastText(chance: string): string {
  const { numerator, denominator } = exactValue(chance);
  if (numerator === 0n) return 'none shown';
  const tenths = (numerator * 1000n) / denominator;
  if (tenths === 0n) return 'more than 0 % (shown: under 0.1 %)';
  return tenths === 1000n ? '100 %' : `at least ${tenths / 10n}.${tenths % 10n} %`;
}

const isNone = (chance: string): boolean => exactValue(chance).numerator === 0n;

/** What do so many questions with odds come to, now and once all of them are answered? One sentence for the head of the list. */
export function standingWords({ now, allAnswered }: NonNullable<QuestionList['withOdds']>, questions: number): string {
  const all = questions === 1 ? 'the question with odds is' : `all ${questions} questions with odds are`;
  if (isNone(allAnswered))
    return `By them no chance is shown that a letter stated now holds, nor once ${all} answered.`;
  const then = `once ${all} answered, ${isNone(now) ? 'the chance is ' : ''}${atLeastText(allAnswered)}`;
  return isNone(now)
    ? `By them no chance is shown that a letter stated now holds; ${then}.`
    : `By them the best letter to state now holds with a chance of ${atLeastText(now)}; ${then}.`;
}

/** What is the answer worth by the odds given? One clause; none where no odds are given for the question. */
export function oddsWords({ chance, expected }: OutlookQuestion): readonly string[] {
  const narrows = expected === undefined ? [] : [`narrows R by ${expected} in the mean`];
  if (!chance) return narrows;
  return [[holdsWords(chance), ...narrows].join('; ')];
}

const holdsWords = ({ now, answered }: NonNullable<OutlookQuestion['chance']>): string => {
  if (isNone(answered)) return 'no chance is shown that a letter stated holds, with the answer no more than now';
  const [before, after] = [atLeastText(now), atLeastText(answered)];
  if (now === answered) return `the best letter to state holds no more surely than now (${before})`;
  // Both may fall into one tenth of a percent.
  if (before === after) return `the best letter to state then holds a little more surely than now (${before})`;
  return `the best letter to state then holds with a chance of ${after} instead of ${before}`;
};

/** A basis holds bounds that are not exact: what they rest on, for the reader who asks why. Undefined where all are exact. */
export function boundReasonWords({ figures, withoutAnswers }: BasisOutlook): string | undefined {
  const bounds = figures.flatMap(({ low, high }) => [low, high]).filter((end) => end !== undefined && !end.exact);
  if (bounds.length === 0) return undefined;
  const rest =
    withoutAnswers.length === 0
      ? 'the search ended before the nearest figure was proved'
      : `no list of answers covers ${withoutAnswers.join('; ')}`;
  return `An end that is a bound: nothing goes beyond it, and no answers were found that lead there, since ${rest}.`;
}
