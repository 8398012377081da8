import type { BasisName } from '#schemes/eu-2023-1669/bases/index-inputs';
import { applyAnswer } from '../open/apply-answer.ts';
import type { Answered, OpenVariable } from '../open/open-variable.ts';
import { openVariables } from '../open/open-variables.ts';
import { trialVariables } from '../open/trial-variables.ts';
import { factsOf } from './open-questions.ts';
import { type OpenState, withAnswer, withAnswers } from './open-state.ts';
import { boundOf, type FigureEnd, isBeyond } from './scaled-figure.ts';

type Side = FigureEnd['end'];

/** Rounds of facts and trials that one guess may take, since an answer can open a further question. */
const MOST_ROUNDS = 24;

/** Trials that a guess puts at most: few where every answer means new routes, as on best found. */
const MOST_TRIALS: Readonly<Record<BasisName, number>> = { declared: 0, observed: 16, best: 2 };

const known = new WeakMap<OpenState, Partial<Record<Side, readonly OpenState[]>>>();

/**
 * Which records does one reach by answering every open fact at once, each as it pulls furthest towards an end by itself, and then
 * one trial after the other? Where a search begins: the value there is a witness, and where it equals the bound, the end. Nothing is
 * taken for granted of it. More than one where a fact has no furthest answer; worked out once a record and end, for all figures. In
 * pieces, a record at a time.
 */
export function* guessesInStages(root: OpenState, end: Side): Generator<undefined, readonly OpenState[], void> {
  const before = known.get(root)?.[end];
  if (before) return before;
  const to = { end, rounds: MOST_ROUNDS, trials: MOST_TRIALS[root.inputs.basis] };
  const there = yield* guess(root, { ...to, isThere: true });
  const hasFigure = there.some(({ index }) => index.figures.R !== null);
  // Where a part that may be there opens more than can be answered, it is taken not to be: a witness, if not at the bound.
  const found = hasFigure ? there : [...there, ...(yield* guess(root, { ...to, isThere: false }))];
  known.set(root, { ...known.get(root), [end]: found });
  return found;
}

interface Guess {
  readonly end: Side;
  /** Is a part of which nobody knows whether it is there taken to be there, where that pulls further? */
  readonly isThere: boolean;
  readonly rounds: number;
  readonly trials: number;
}

function* guess(state: OpenState, to: Guess): Generator<undefined, readonly OpenState[], void> {
  yield;
  if (to.rounds === 0) return [state];
  const next = { ...to, rounds: to.rounds - 1 };
  const facts = openFacts(state);
  const unguided = facts.find(({ furthest }) => furthest === undefined);
  if (unguided) return yield* guessEach(state, unguided, next);
  if (facts.length > 0) return yield* onwards(withAnswers(state, furthestAnswers(state, facts, to)), next);
  const trial = to.trials > 0 && trialVariables(state).find((variable) => !wasAsked(state, variable));
  return trial ? yield* onwards(yield* afterTrial(state, trial, to.end), { ...next, trials: to.trials - 1 }) : [state];
}

function* guessEach(
  state: OpenState,
  variable: OpenVariable,
  to: Guess,
): Generator<undefined, readonly OpenState[], void> {
  const found: OpenState[] = [];
  for (const answer of variable.answers) found.push(...(yield* onwards(withAnswer(state, { variable, answer }), to)));
  return found;
}

function* onwards(state: OpenState | undefined, to: Guess): Generator<undefined, readonly OpenState[], void> {
  return state ? yield* guess(state, to) : [];
}

const wasAsked = ({ answers }: OpenState, { id }: OpenVariable): boolean =>
  answers.some(({ variable }) => variable.id === id);

const missingOf = (state: OpenState) => [...factsOf(state, 'R'), ...factsOf(state, 'SDD')];

const openFacts = (state: OpenState): readonly OpenVariable[] =>
  openVariables(state.assessment, missingOf(state), state.kitFacts).filter(
    (variable) => variable.answers.length > 0 && !wasAsked(state, variable),
  );

/** One answer to each fact, made one after the other for the record as the answers before leave it. */
const furthestAnswers = (
  state: OpenState,
  facts: readonly OpenVariable[],
  { end, isThere }: Guess,
): readonly Answered[] => {
  const missing = missingOf(state);
  const answered: Answered[] = [];
  let { assessment } = state;
  for (const { id, furthest } of facts) {
    const own = missing.filter(({ address }) => address === id || address.startsWith(`${id}/`));
    const variable = openVariables(assessment, own, state.kitFacts).find((each) => each.id === id);
    const chosen = !isThere && isPresence(id) ? 'no' : furthest?.[end];
    const answer = variable?.answers.find((each) => each.id === chosen);
    if (!variable || !answer) continue;
    answered.push({ variable, answer });
    assessment = applyAnswer(assessment, answer);
  }
  return answered;
};

const isPresence = (id: string): boolean => /^parts\/[^/]+$/.test(id);

/** The record with the answer to a trial that leaves R's end further out; of equal ones the first. */
function* afterTrial(
  state: OpenState,
  variable: OpenVariable,
  end: Side,
): Generator<undefined, OpenState | undefined, void> {
  let furthest: OpenState | undefined;
  for (const answer of variable.answers) {
    yield;
    const next = withAnswer(state, { variable, answer });
    const bound = next && boundOf(next, { objective: 'R', end });
    const best = furthest && boundOf(furthest, { objective: 'R', end });
    if (bound !== undefined && (best === undefined || isBeyond(bound, best, end))) furthest = next;
  }
  return furthest;
}
