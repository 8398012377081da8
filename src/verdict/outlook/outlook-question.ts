import { roundToInteger } from '#quantity/rational';
import type { Patch } from '#record/patch/operation';
import { type RankedQuestion, ruledOutOf } from '../questions/rank-questions.ts';
import { exactText } from '../rubric/exact-text.ts';
import { type ShownSpan, shownFigure, shownSpan } from './shown-span.ts';

/** One question to settle next. */
export interface OutlookQuestion {
  readonly ids: readonly string[];
  readonly asks: readonly string[];
  readonly remedies: readonly string[];
  readonly kind: 'fact' | 'trial' | 'both';
  readonly minutes: number;
  /** R's width shrinks at least by this much, whatever the answer. */
  readonly guaranteed: string;
  readonly guaranteedSteps: number;
  /** Where odds are given for it: the mean by which R's width shrinks (of a single question), to the nearest. */
  readonly expected?: string;
  /** Where odds are given: the chance, at least, that the best letter to state holds, now and with the answer; exact, as text. */
  readonly chance?: { readonly now: string; readonly answered: string };
  /** Of a single question: listed answers that the rest of the record rules out, which have no effect. Odds name them with 0. */
  readonly ruledOut?: readonly string[];
  readonly effects: readonly (ShownSpan & {
    readonly answer: string;
    readonly says: string;
    /** The change of the record that says this and no more; who, when and evidence come with `answeredPatch`. */
    readonly patch: Patch;
  })[];
}

/** How is a ranked question shown? */
export const questionOf = ({
  variables,
  minutes,
  guaranteed,
  guaranteedSteps,
  expected,
  information,
  effects,
}: RankedQuestion): OutlookQuestion => ({
  ids: variables.map(({ id }) => id),
  asks: variables.map(({ asks }) => asks),
  remedies: variables.map(({ remedy }) => remedy),
  kind: kindOf(variables),
  minutes,
  guaranteed: shownFigure(guaranteed, 'R'),
  guaranteedSteps,
  ...(expected ? { expected: shownFigure(Number(roundToInteger(expected)), 'R') } : {}),
  ...(information ? { chance: { now: exactText(information.now), answered: exactText(information.informed) } } : {}),
  ...ruledOutOf({ variables, effects }),
  effects: effects.map(({ answer, span }) => ({
    answer: answer.id,
    says: answer.says,
    patch: answer.patch,
    ...shownSpan(span),
  })),
});

const kindOf = (variables: RankedQuestion['variables']): OutlookQuestion['kind'] => {
  const kinds = new Set(variables.map(({ kind }) => kind));
  return kinds.size > 1 ? 'both' : (variables[0]?.kind ?? 'fact');
};
