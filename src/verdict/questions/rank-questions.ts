import { compare, negated, plus, type Rational, rational, times } from '#quantity/rational';
import type { IndexWidth } from '#schemes/eu-2023-1669/index-width';
import type { Interpretations } from '#schemes/eu-2023-1669/interpretations';
import { openQuestions } from '../bounds/open-questions.ts';
import type { OpenState } from '../bounds/open-state.ts';
import { widthWith, withAnswer } from '../bounds/open-state.ts';
import { scaledFigure } from '../bounds/scaled-figure.ts';
import { lettersBetween } from '../letters.ts';
import type { Answered, OpenAnswer, OpenVariable } from '../open/open-variable.ts';
import { expectedNarrowing } from './expected-narrowing.ts';
import { type InformationValue, informationValue, type Outcome } from './information-value.ts';
import type { QuestionOdds } from './letter-outcomes.ts';

/** Between which values a figure lies, as scaled integers; both undefined where no number is possible any more. */
export interface Span {
  readonly low?: number;
  readonly high?: number;
  readonly letters: readonly string[];
  readonly mayBeNotScorable: boolean;
}

/** What one answer would make of the verdict on the basis asked about. */
export interface AnswerEffect {
  readonly answer: OpenAnswer;
  readonly span: Span;
  /** Steps of all priority parts together that are still open after it [steps]; undefined where one has no upper bound. */
  readonly openSteps?: number;
}

/** One question with what its answers are worth. */
export interface RankedQuestion {
  readonly variables: readonly OpenVariable[];
  /** Bench or desk minutes the answer takes; an assumption unless the caller says otherwise. */
  readonly minutes: number;
  /** By how much R's width shrinks whatever the answer is [ten-thousandths]; 0 where answers besides the listed are possible. */
  readonly guaranteed: number;
  /** By how much it shrinks at least if the answer is one of the listed [ten-thousandths]. */
  readonly asListed: number;
  /** By how much the open steps shrink whatever the answer is [steps]. */
  readonly guaranteedSteps: number;
  /** The mean shrinking under the odds given for its answers [ten-thousandths]; undefined without odds. */
  readonly expected?: Rational;
  /** The chance that a letter stated holds at least, stated now and stated with the answer; undefined without odds. */
  readonly information?: InformationValue;
  readonly effects: readonly AnswerEffect[];
}

/** How questions are ranked. */
export interface RankOptions {
  /** Minutes a question takes; by kind unless said. */
  readonly minutes?: (variable: OpenVariable) => number;
  /** Odds of answers by variable id, where anybody can give them. */
  readonly odds?: QuestionOdds;
  /** What `letterOutcomes` makes of the odds; without it no question has a value for the letter. */
  readonly outcomes?: readonly Outcome[];
  /** Questions that pairs are made of when no single one narrows (8). */
  readonly pairsOf?: number;
  /** Trials and sights that are weighed at most, in the order in which the routes name them (20); facts all are. */
  readonly trials?: number;
}

/** Minutes a question takes where nobody says: ours, common practice, no source. */
export const DEFAULT_MINUTES: Readonly<Record<OpenVariable['touches'], number>> = {
  product: 10,
  judging: 15,
  routes: 20,
};

const defaultMinutes = ({ touches }: OpenVariable): number => DEFAULT_MINUTES[touches];

/**
 * Which question narrows the verdict most? Best first: by guaranteed narrowing of R a minute, then of steps, then, where odds
 * are given, by the value of the answer for the letter (see `letterOutcomes`) and by the mean narrowing, then by what the
 * listed answers narrow, then by id. When no single question narrows R for certain, pairs are tried as well. Each question
 * when it is worked out, the ranking when all are. Cost: one evaluation of the basis an answer; of pairs, answers times
 * answers.
 */
export function* rankQuestions(
  state: OpenState,
  options: RankOptions = {},
): Generator<undefined, readonly RankedQuestion[]> {
  const singles: RankedQuestion[] = [];
  let trials = 0;
  for (const variable of openQuestions(state, 'R')) {
    if (variable.kind === 'trial') trials += 1;
    if (trials > (options.trials ?? 20)) break;
    singles.push(weighed(state, [variable], options));
    yield;
  }
  if (singles.some(({ guaranteed }) => guaranteed > 0)) return singles.sort(better);
  const pairs: RankedQuestion[] = [];
  const first = [...singles].sort(better).slice(0, options.pairsOf ?? 8);
  for (const [index, one] of first.entries())
    for (const other of first.slice(index + 1)) {
      pairs.push(weighed(state, [...one.variables, ...other.variables], options));
      yield;
    }
  return [...singles, ...pairs.filter(({ guaranteed, guaranteedSteps }) => guaranteed + guaranteedSteps > 0)].sort(
    better,
  );
}

const weighed = (state: OpenState, variables: readonly OpenVariable[], options: RankOptions): RankedQuestion => {
  const { minutes = defaultMinutes } = options;
  const effects = effectsOf(state, variables);
  const now = widthOf(spanOf(state));
  const steps = openSteps(widthNow(state));
  const most = Math.max(...effects.map(({ span }) => widthOf(span)));
  const mostSteps = effects.map((effect) => effect.openSteps).reduce(greater, 0);
  const covered = variables.every(({ covers }) => covers !== false);
  return {
    variables,
    minutes: variables.reduce((sum, variable) => sum + minutes(variable), 0),
    guaranteed: covered ? now - most : 0,
    asListed: now - most,
    guaranteedSteps: covered && steps !== undefined && mostSteps !== undefined ? steps - mostSteps : 0,
    ...byOdds(variables, { now, effects, ...options }),
    effects,
  };
};

/** What is the answer of one question, or are the answers of two, worth where odds are given for all of them? */
const byOdds = (
  variables: readonly OpenVariable[],
  as: RankOptions & Pick<RankedQuestion, 'effects'> & { readonly now: number },
): Pick<RankedQuestion, 'expected' | 'information'> => {
  const ids = variables.map(({ id }) => id);
  const [odds, ...others] = ids.map((id) => as.odds?.[id]);
  if (!odds || others.includes(undefined)) return {};
  const after = as.effects.map(({ answer, span }) => [answer.id, widthOf(span)] as const);
  return {
    ...(others.length === 0 ? { expected: expectedNarrowing(as.now, after, odds) } : {}),
    ...(as.outcomes ? { information: informationValue(as.outcomes, ids) } : {}),
  };
};

const greater = (a: number | undefined, b: number | undefined): number | undefined =>
  a === undefined || b === undefined ? undefined : Math.max(a, b);

/** What do the answers of one question, or every combination of the answers of two, make of the basis? */
const effectsOf = (state: OpenState, [variable, other]: readonly OpenVariable[]): readonly AnswerEffect[] => {
  if (!variable) return [];
  return variable.answers.flatMap((answer): readonly AnswerEffect[] => {
    if (!other) return effectOf(state, { variable, answer });
    const next = withAnswer(state, { variable, answer });
    if (!next) return [];
    // The second question's answers are changes of the record as the first answer leaves it.
    const second = [...openQuestions(next, 'R')].find(({ id }) => id === other.id);
    if (!second) return [effectOfWidth(answer, widthNow(next), next.readings)];
    return effectsOf(next, [second]).map((effect) => ({ ...effect, answer: joined(answer, effect.answer) }));
  });
};

/** Which listed answers of a single question does the rest of the record rule out, so that they have no effect? By id. */
export const ruledOutOf = ({
  variables: [variable, ...others],
  effects,
}: Pick<RankedQuestion, 'variables' | 'effects'>): { readonly ruledOut?: readonly string[] } => {
  const left = new Set(effects.map(({ answer }) => answer.id));
  const ruledOut = others.length > 0 ? [] : (variable?.answers ?? []).flatMap(({ id }) => (left.has(id) ? [] : [id]));
  return ruledOut.length === 0 ? {} : { ruledOut };
};

const effectOf = (state: OpenState, answered: Answered): readonly AnswerEffect[] => {
  const width = widthWith(state, answered);
  return width ? [effectOfWidth(answered.answer, width, state.readings)] : [];
};

const effectOfWidth = (answer: OpenAnswer, width: Width, readings: Interpretations): AnswerEffect => {
  const steps = openSteps(width);
  return { answer, span: spanOfWidth(width, readings), ...(steps === undefined ? {} : { openSteps: steps }) };
};

type Width = Pick<IndexWidth, 'low' | 'high' | 'includesNotScorable'>;

const widthNow = ({ index }: OpenState): Width => ({
  low: index.low ?? index.figures,
  high: index.high ?? index.figures,
  includesNotScorable: index.mayBeNotScorable,
});

const joined = (one: OpenAnswer, other: OpenAnswer): OpenAnswer => ({
  id: `${one.id} & ${other.id}`,
  says: `${one.says}; ${other.says}`,
  patch: [...one.patch, ...other.patch],
});

/** Between which values does R lie on the basis of a state, and which letters are possible? */
export const spanOf = (state: OpenState): Span => spanOfWidth(widthNow(state), state.readings);

const spanOfWidth = ({ low, high, includesNotScorable }: Width, readings: Interpretations): Span => {
  const [least, most] = [scaledFigure(low, 'R'), scaledFigure(high, 'R')];
  return {
    ...(least === undefined ? {} : { low: least }),
    ...(most === undefined ? {} : { high: most }),
    letters: lettersBetween({ low, high }, readings),
    mayBeNotScorable: includesNotScorable,
  };
};

/** The width of R [ten-thousandths]; none where no number is possible any more. */
const widthOf = ({ low, high }: Span): number => (low === undefined || high === undefined ? 0 : high - low);

/** Steps still open over all priority parts [steps]; undefined where a part has no upper bound. */
const openSteps = ({ low, high }: Width): number | undefined => {
  let open = 0;
  for (const [role, worst] of Object.entries(low.parts)) {
    const best = high.parts[role];
    if (!best || best.steps === worst.steps) continue;
    if (worst.steps === null || best.steps === null) return undefined;
    open += Math.abs(worst.steps - best.steps);
  }
  return open;
};

/** Narrowing a minute compared crosswise in integers, so that no rounding decides a rank. */
const better = (a: RankedQuestion, b: RankedQuestion): number =>
  b.guaranteed * a.minutes - a.guaranteed * b.minutes ||
  b.guaranteedSteps * a.minutes - a.guaranteedSteps * b.minutes ||
  compare(times(gainOf(b), minutesOf(a)), times(gainOf(a), minutesOf(b))) ||
  compare(times(b.expected ?? NOTHING, minutesOf(a)), times(a.expected ?? NOTHING, minutesOf(b))) ||
  b.asListed * a.minutes - a.asListed * b.minutes ||
  (keyOf(a) < keyOf(b) ? -1 : 1);

const NOTHING = rational(0n);

const gainOf = ({ information }: RankedQuestion): Rational =>
  information ? plus(information.informed, negated(information.now)) : NOTHING;

/** Minutes as a fraction; a caller may give halves and quarters, which a double holds exactly. */
const minutesOf = ({ minutes }: RankedQuestion): Rational => rational(BigInt(Math.round(minutes * 4096)), 4096n);

const keyOf = ({ variables }: RankedQuestion): string => variables.map(({ id }) => id).join('\n');
