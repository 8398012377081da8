import { openQuestions } from '../bounds/open-questions.ts';
import { type OpenState, withAnswer } from '../bounds/open-state.ts';
import { letterOf, lettersOf } from '../letters.ts';
import type { Answered, OpenVariable } from '../open/open-variable.ts';

/** A smallest set of answers that settles a letter whatever the rest turns out to be. */
export interface FlipSet {
  readonly letter: string;
  readonly answers: readonly Answered[];
}

/** What was found, and how far it was looked. */
export interface FlipSets {
  /** Smallest first; no set holds another for the same letter. */
  readonly sets: readonly FlipSet[];
  /** The letter of the figures as they stand; the sets settle others. Undefined while a fact leaves it open. */
  readonly letter: string | undefined;
  /** Every set of up to so many answers was looked at. */
  readonly completeTo: number;
}

/** How far to look. */
export interface FlipOptions {
  /** Answers in a set at most (3). */
  readonly size?: number;
  /** Records that may be worked out (2 000). */
  readonly limit?: number;
}

interface Reached {
  readonly state: OpenState;
  /** Position of the last question answered: the next answers are to later ones, so that no set is made twice. */
  readonly after: number;
}

/**
 * Which fewest answers would settle another letter, whatever the rest? All sets of one answer, then of two, then of three, to
 * questions whose answers are all listed; a set is left out where a smaller one in it does the same. Cost: one evaluation of
 * the basis a set.
 */
export const flipSets = (root: OpenState, { size = 3, limit = 2_000 }: FlipOptions = {}): FlipSets => {
  const letter = letterOf(root.index.figures, root.readings) ?? undefined;
  const questions = [...openQuestions(root, 'R')].filter(({ covers }) => covers !== false);
  const sets: FlipSet[] = [];
  let reached: readonly Reached[] = [{ state: root, after: -1 }];
  let looked = 0;
  for (let count = 1; count <= size; count++) {
    const next: Reached[] = [];
    for (const from of reached)
      for (const one of furtherAnswers(from, questions)) {
        looked += 1;
        if (looked > limit) return { sets, letter, completeTo: count - 1 };
        const settled = settledLetter(one.state);
        if (settled === undefined) next.push(one);
        else if (settled !== letter && !isHeld(sets, settled, one.state.answers))
          sets.push({ letter: settled, answers: one.state.answers });
      }
    reached = next;
  }
  return { sets, letter, completeTo: size };
};

function* furtherAnswers({ state, after }: Reached, questions: readonly OpenVariable[]): Generator<Reached> {
  for (const [index, variable] of questions.entries()) {
    if (index <= after) continue;
    for (const answer of variable.answers) {
      const next = withAnswer(state, { variable, answer });
      if (next) yield { state: next, after: index };
    }
  }
}

/** The one letter left; undefined where several are, or none, or the product may still be not scorable. */
const settledLetter = ({ index, readings }: OpenState): string | undefined => {
  const letters = lettersOf(index, readings);
  return letters.length === 1 && !index.mayBeNotScorable ? letters[0] : undefined;
};

const isHeld = (sets: readonly FlipSet[], letter: string, answers: readonly Answered[]): boolean =>
  sets.some((set) => set.letter === letter && set.answers.every((known) => answers.some((one) => isSame(one, known))));

const isSame = (a: Answered, b: Answered): boolean => a.variable.id === b.variable.id && a.answer.id === b.answer.id;
