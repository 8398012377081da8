import { drained } from '#quantity/drained';
import { withinSentence } from '#quantity/within-sentence';
import type { Assessment } from '#record/schema/assessment';
import type { BasisName } from '#schemes/eu-2023-1669/bases/index-inputs';
import { classOf, roundedR } from '#schemes/eu-2023-1669/classes';
import type { Interpretations } from '#schemes/eu-2023-1669/interpretations';
import { type OpenState, openState, openStates } from '../bounds/open-state.ts';
import type { Objective } from '../bounds/scaled-figure.ts';
import { type FoundEnd, searchEndInStages } from '../bounds/search-end.ts';
import { expectedRecord } from '../expectations/expected-record.ts';
import { type Groundwork, groundworkOf, readingsOf } from '../index-bases.ts';
import { openVariables } from '../open/open-variables.ts';
import { rankQuestions, spanOf } from '../questions/rank-questions.ts';
import { type OutlookQuestion, questionOf } from './outlook-question.ts';
import { type ShownSpan, shownFigure, shownSpan, spanWords } from './shown-span.ts';

/** One end of a figure, ready to be shown. */
export interface OutlookEnd {
  /** What no completion of the record goes beyond, with the decimals of the figure. */
  readonly bound: string;
  /** True where answers were found that lead exactly there. */
  readonly exact: boolean;
  /** The letter of R at the bound, by the reading of rounding; only for R. */
  readonly letter?: string;
  /** The most extreme value found with answers that lead to it, in words and by id; they are `unfasten answer`'s. */
  readonly witness?: {
    readonly value: string;
    readonly answers: readonly {
      readonly question: string;
      readonly answer: string;
      readonly asks: string;
      readonly says: string;
    }[];
    /** Set where facts are still open with these answers, so that nothing shows that the value stays when they are known. */
    readonly factsOpen?: true;
  };
  /** How far the bound lies beyond the witness, where it does. */
  readonly gap?: string;
}

/** One figure of one basis between its two ends; an end is missing where no number is possible there. */
export interface OutlookFigure {
  readonly figure: Objective;
  readonly low?: OutlookEnd;
  readonly high?: OutlookEnd;
}

/** One basis: how far each figure can still move, what holds on the record's expectations, and what no answer covers. */
export interface BasisOutlook {
  readonly basis: BasisName;
  readonly figures: readonly OutlookFigure[];
  readonly mayBeNotScorable: boolean;
  readonly expectations: readonly {
    readonly id: string;
    readonly name: string;
    readonly low?: string;
    readonly high?: string;
    readonly letters: readonly string[];
    readonly mayBeNotScorable: boolean;
  }[];
  /** The conditional verdict, one sentence an expectation. */
  readonly conditional: readonly string[];
  /** Open facts that no list of answers covers: ends that rest on them are bounds. */
  readonly withoutAnswers: readonly string[];
}

/** How far the verdict can still move, and what to settle next. */
export interface Outlook {
  readonly bases: readonly BasisOutlook[];
  /** The basis whose width the questions are ranked by: best found, else observed, else declared. */
  readonly rankedBy?: BasisName;
  readonly questions: readonly OutlookQuestion[];
}

/** How much work an outlook may take. */
export interface OutlookOptions {
  /** Work a search for one end of R may take, in the measure of `searchEnd` (300); of a score, a third of it. */
  readonly limit?: number;
  /** False where nobody asks for the questions: none is ranked then. */
  readonly questions?: boolean;
}

const OBJECTIVES: readonly Objective[] = ['R', 'SDD', 'SF', 'ST', 'SSP', 'SSU', 'SRI'];

/**
 * How far can the verdict still move, by which answers, and what should be settled next? Both ends of R and of each score on
 * every basis, exact or a bound with its gap; the same on each expectation of the record; the open questions, ranked.
 */
export const computeOutlook = (assessment: Assessment, options: OutlookOptions = {}): Outlook =>
  drained(outlookInStages(assessment, options));

/**
 * The same in pieces, for a screen that must not wait: the questions and what holds on the expectations come first, with no
 * figures on any basis yet, since the ends take longest.
 */
export function* outlookInStages(
  assessment: Assessment,
  { limit = 300, questions = true }: OutlookOptions = {},
): Generator<Outlook | undefined, Outlook, void> {
  const groundwork = groundworkOf(assessment);
  const readings = readingsOf(assessment);
  const expected = Object.entries(assessment.expectations ?? {}).map(([id, expectation]) => ({
    id,
    name: expectation.name,
    groundwork: groundworkOf(expectedRecord(assessment, expectation)),
  }));
  const states = openStates(groundwork, readings);
  const frames: BasisOutlook[] = [];
  for (const state of states) frames.push(yield* withoutEnds(state, { readings, expected }));
  const main = states.at(-1);
  const ranked = main && questions ? yield* rankQuestions(main) : [];
  const rest = { ...(main ? { rankedBy: main.inputs.basis } : {}), questions: ranked.map(questionOf) };
  yield { bases: frames, ...rest };
  const bases: BasisOutlook[] = [];
  for (const [index, state] of states.entries()) {
    const frame = frames[index];
    if (frame) bases.push(withEnds(frame, yield* endsOf(state, { readings, limit }), shownSpan(spanOf(state))));
  }
  return { bases, ...rest };
}

/**
 * The frame with its ends. What is possible is as narrow as the ends of R were found to be, with and without an expectation: what
 * holds on one is among what is possible, so that its interval lies within.
 */
const withEnds = (frame: BasisOutlook, figures: readonly OutlookFigure[], now: ShownSpan): BasisOutlook => {
  const ends = figures.find(({ figure }) => figure === 'R') ?? {};
  const narrowed = spanWithin(now, ends);
  const expectations = frame.expectations.map((then) => ({ ...then, ...spanWithin(then, ends) }));
  return { ...frame, figures, expectations, conditional: expectations.map((then) => conditionalWords(then, narrowed)) };
};

/** What is left of a span between two ends; all with the four decimals of R. */
const spanWithin = (span: ShownSpan, { low, high }: Pick<OutlookFigure, 'low' | 'high'>): ShownSpan => {
  const between = (letter: string): boolean => (high?.letter ?? 'A') <= letter && letter <= (low?.letter ?? 'E');
  const isBelow = low !== undefined && span.low !== undefined && Number(span.low) < Number(low.bound);
  const isAbove = high !== undefined && span.high !== undefined && Number(span.high) > Number(high.bound);
  return {
    ...(isBelow ? { ...span, low: low.bound } : span),
    ...(isAbove ? { high: high.bound } : {}),
    letters: span.letters.filter(between),
  };
};

interface Expected {
  readonly id: string;
  readonly name: string;
  readonly groundwork: Groundwork;
}

function* endsOf(
  state: OpenState,
  { readings, limit }: { readonly readings: Interpretations; readonly limit: number },
): Generator<undefined, readonly OutlookFigure[], void> {
  const figures: OutlookFigure[] = [];
  for (const figure of OBJECTIVES) {
    const low = yield* searchEndInStages(state, { objective: figure, end: 'low', limit });
    const high = yield* searchEndInStages(state, { objective: figure, end: 'high', limit });
    figures.push({
      figure,
      ...(low ? { low: endOf(low, figure, readings) } : {}),
      ...(high ? { high: endOf(high, figure, readings) } : {}),
    });
  }
  return figures;
}

function* withoutEnds(
  state: OpenState,
  { readings, expected }: { readonly readings: Interpretations; readonly expected: readonly Expected[] },
): Generator<undefined, BasisOutlook, void> {
  const onExpectations: BasisOutlook['expectations'][number][] = [];
  for (const { id, name, groundwork } of expected) {
    const then = openState(state.inputs.basis, groundwork, readings);
    if (then) onExpectations.push({ id, name, ...shownSpan(spanOf(then)) });
    yield;
  }
  const now = shownSpan(spanOf(state));
  return {
    basis: state.inputs.basis,
    figures: [],
    mayBeNotScorable: state.index.mayBeNotScorable,
    expectations: onExpectations,
    conditional: onExpectations.map((then) => conditionalWords(then, now)),
    withoutAnswers: openVariables(state.assessment, state.index.missing, state.kitFacts).flatMap(({ answers, asks }) =>
      answers.length === 0 ? [asks] : [],
    ),
  };
}

const endOf = ({ bound, exact, witness }: FoundEnd, figure: Objective, readings: Interpretations): OutlookEnd => ({
  bound: shownFigure(bound, figure),
  exact,
  ...(figure === 'R' ? letterAt(bound, readings) : {}),
  ...(witness
    ? {
        witness: {
          value: shownFigure(witness.value, figure),
          answers: witness.answers.map(({ variable, answer }) => ({
            question: variable.id,
            answer: answer.id,
            asks: variable.asks,
            says: answer.says,
          })),
          ...(witness.isFinal ? {} : { factsOpen: true as const }),
        },
      }
    : {}),
  ...(witness && !exact ? { gap: shownFigure(Math.abs(bound - witness.value), figure) } : {}),
});

const letterAt = (r: number, readings: Interpretations): { readonly letter?: string } => {
  const letter = classOf(readings.rounding === 'rounded' ? roundedR(r) * 100 : r);
  return letter === undefined ? {} : { letter };
};

/** What holds on the expectation, and what else is possible? One sentence, both intervals in it. */
const conditionalWords = (then: BasisOutlook['expectations'][number], now: ShownSpan): string => {
  const [there, here] = [spanWords(then), spanWords(now)];
  return `If ${withinSentence(then.name)}: ${there}${there === here ? ', as without it' : `; else ${here}`}.`;
};
