import { type Rational, rational, times } from '#quantity/rational';
import { UnfastenError } from '#quantity/unfasten-error';
import { openQuestions } from '../bounds/open-questions.ts';
import { type OpenState, withAnswer } from '../bounds/open-state.ts';
import { LETTERS, lettersOf } from '../letters.ts';
import type { OpenVariable } from '../open/open-variable.ts';
import type { AnswerOdds } from './expected-narrowing.ts';
import type { Outcome } from './information-value.ts';

/** Odds by the id of the question. */
export type QuestionOdds = Readonly<Record<string, AnswerOdds>>;

/** Mixtures of answers that are worked out at most; each is one evaluation of the basis. */
const MOST_MIXTURES = 512;

const [NOTHING, ONE] = [rational(0n), rational(1n)];

/**
 * How may the questions with odds turn out together, and which letter stands then? One outcome a mixture of answers, the odds
 * of different questions taken to be independent. An option is a letter, or "not scorable", to be stated; it is worth 1 where it
 * alone is left whatever all other open facts are, else 0, so that a mean worth is a chance that a letter stated holds *at least*.
 * A question that another's answer settles keeps its odds and moves nothing; a mixture that cannot be is left out. Throws
 * `too-large` beyond `MOST_MIXTURES` mixtures, and `record` where no mixture can be. In pieces, one evaluation at a time.
 */
export function* letterOutcomes(state: OpenState, odds: QuestionOdds): Generator<undefined, readonly Outcome[], void> {
  const asked = [...openQuestions(state, 'R')].filter(({ id }) => odds[id] !== undefined);
  const mixtures = asked.reduce((product, { id }) => product * possible(odds[id] ?? {}).length, 1);
  if (mixtures > MOST_MIXTURES) throw tooMany(mixtures);
  const outcomes = yield* mixed(state, asked, { odds, weight: ONE, answers: {} });
  if (outcomes.length === 0) throw contradicting();
  return outcomes;
}

interface Begun {
  readonly odds: QuestionOdds;
  readonly weight: Rational;
  readonly answers: Readonly<Record<string, string>>;
}

function* mixed(
  state: OpenState,
  [first, ...rest]: readonly OpenVariable[],
  begun: Begun,
): Generator<undefined, readonly Outcome[], void> {
  if (!first) return [{ weight: begun.weight, answers: begun.answers, worth: worthOf(state) }];
  const outcomes: Outcome[] = [];
  // The question as the answers so far leave it: its changes are changes of that record.
  const open = [...openQuestions(state, 'R')].find(({ id }) => id === first.id);
  for (const [answer, chance] of possible(begun.odds[first.id] ?? {})) {
    const next = open ? answeredState(state, open, answer) : state;
    if (!next) continue;
    const answers = { ...begun.answers, [first.id]: answer };
    outcomes.push(...(yield* mixed(next, rest, { ...begun, weight: times(begun.weight, chance), answers })));
    yield;
  }
  return outcomes;
}

const answeredState = (state: OpenState, variable: OpenVariable, id: string): OpenState | undefined => {
  const answer = variable.answers.find((candidate) => candidate.id === id);
  return answer && withAnswer(state, { variable, answer });
};

const possible = (odds: AnswerOdds): readonly (readonly [string, Rational])[] =>
  Object.entries(odds).filter(([, chance]) => chance.numerator > 0n);

const worthOf = ({ index, readings }: OpenState): readonly Rational[] => {
  const letters = lettersOf(index, readings);
  // Without any letter it is not scorable for certain.
  const canBeNone = index.mayBeNotScorable || letters.length === 0;
  const [stated, ...others] = [...letters, ...(canBeNone ? [NOT_SCORABLE] : [])];
  return [...LETTERS, NOT_SCORABLE].map((option) => (option === stated && others.length === 0 ? ONE : NOTHING));
};

const NOT_SCORABLE = 'not scorable';

const tooMany = (mixtures: number): UnfastenError =>
  new UnfastenError('too-large', 'These odds have more mixtures of answers than are worked out', {
    where: 'odds',
    value: mixtures,
    remedy: `Give odds for fewer questions, or 0 to answers that are ruled out: at most ${MOST_MIXTURES} mixtures.`,
    best: undefined,
    bound: MOST_MIXTURES,
    unit: 'mixtures',
  });

const contradicting = (): UnfastenError =>
  new UnfastenError('record', 'No mixture of the answers with odds above 0 can be', {
    where: 'odds',
    value: undefined,
    remedy: 'Give odds above 0 to answers that can be true together.',
  });
