import { drained } from '#quantity/drained';
import type { Assessment } from '#record/schema/assessment';
import type { BasisName } from '#schemes/eu-2023-1669/bases/index-inputs';
import { openQuestions } from '../bounds/open-questions.ts';
import { type OpenState, openStates } from '../bounds/open-state.ts';
import { groundworkOf, readingsOf } from '../index-bases.ts';
import type { OpenVariable } from '../open/open-variable.ts';
import { informationValue, type Outcome } from '../questions/information-value.ts';
import { letterOutcomes, type QuestionOdds } from '../questions/letter-outcomes.ts';
import { rankQuestions, spanOf } from '../questions/rank-questions.ts';
import { exactText } from '../rubric/exact-text.ts';
import { type OutlookQuestion, questionOf } from './outlook-question.ts';
import { type ShownSpan, shownSpan } from './shown-span.ts';

/** The questions of one basis, best first, and the width they would narrow. */
export interface QuestionList {
  readonly rankedBy: BasisName;
  readonly now: ShownSpan;
  /**
   * Where odds are given: the chance, at least, that the best letter to state holds, stated now and stated with the answers of
   * all questions that odds are given for. Exact, as text.
   */
  readonly withOdds?: { readonly now: string; readonly allAnswered: string };
  readonly questions: readonly OutlookQuestion[];
}

/** A basis that questions can be put on, and those that are open there by id. */
export interface QuestionBasis {
  readonly state: OpenState;
  readonly open: ReadonlyMap<string, OpenVariable>;
}

/**
 * Which questions are open on this basis, or on the first of best found, observed and declared that there is? Undefined where
 * the record holds nothing for the basis but a public sheet.
 */
export const questionBasis = (assessment: Assessment, basis?: BasisName): QuestionBasis | undefined => {
  const states = openStates(groundworkOf(assessment), readingsOf(assessment));
  const state = basis === undefined ? states.at(-1) : states.find(({ inputs }) => inputs.basis === basis);
  return state && { state, open: new Map([...openQuestions(state, 'R')].map((variable) => [variable.id, variable])) };
};

/** Every question of a record that has a list of answers, on any basis, by id: what `unfasten answer` can take. */
export const questionsOf = (assessment: Assessment): ReadonlyMap<string, OpenVariable> => {
  const states = openStates(groundworkOf(assessment), readingsOf(assessment));
  return new Map(
    states.flatMap((state) => [...openQuestions(state, 'R')].map((variable) => [variable.id, variable] as const)),
  );
};

/** What should be settled next there, by the odds if any are given? Without the ends of an outlook, which take longer. */
export const rankedQuestions = ({ state }: QuestionBasis, odds?: QuestionOdds): QuestionList => {
  const outcomes = odds && drained(letterOutcomes(state, odds));
  const questions = drained(rankQuestions(state, odds && outcomes ? { odds, outcomes } : {})).map(questionOf);
  return {
    rankedBy: state.inputs.basis,
    now: shownSpan(spanOf(state)),
    ...(odds && outcomes ? { withOdds: chancesOf(outcomes, Object.keys(odds)) } : {}),
    questions,
  };
};

const chancesOf = (outcomes: readonly Outcome[], ids: readonly string[]): NonNullable<QuestionList['withOdds']> => {
  const { now, informed } = informationValue(outcomes, ids);
  return { now: exactText(now), allAnswered: exactText(informed) };
};
