import { openQuestions } from '../bounds/open-questions.ts';
import { type OpenState, widthWithAll } from '../bounds/open-state.ts';
import { letterOf, lettersBetween } from '../letters.ts';
import type { Answered } from '../open/open-variable.ts';
import { type Choice, RefutedSets } from './refuted-sets.ts';

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
  /** Records that may be worked out (10 000). */
  readonly limit?: number;
}

/**
 * Which fewest answers would settle another letter, whatever the rest? All sets of one answer, then of two, then of three, to
 * questions whose answers are all listed; a set is left out where a smaller one in it does the same. A set is worked out only where no
 * record seen before shows that it settles nothing (see `RefutedSets`); such records answer as many questions as there are, so that each
 * stands for all the sets in it.
 */
export const flipSets = (root: OpenState, { size = 3, limit = 10_000 }: FlipOptions = {}): FlipSets =>
  new FlipSearch(root, limit).run(size);

class FlipSearch {
  readonly #root: OpenState;
  readonly #limit: number;
  readonly #letter: string | undefined;
  readonly #questions: readonly (readonly Choice[])[];
  readonly #refuted = new RefutedSets();
  /** Sets that settle a letter, the one that stands or another. */
  readonly #settled: { readonly letter: string; readonly choices: readonly Choice[] }[] = [];
  /** Answers after which there is no score for certain: no set that a record with one of them holds settles a letter. */
  readonly #ending: Choice[] = [];
  /** In how many records that were made up is each answer? */
  readonly #used = new Map<Choice, number>();
  #looked = 0;

  constructor(root: OpenState, limit: number) {
    this.#root = root;
    this.#limit = limit;
    this.#letter = letterOf(root.index.figures, root.readings) ?? undefined;
    this.#questions = [...openQuestions(root, 'R')]
      .filter(({ covers }) => covers !== false)
      .map((variable, question) => variable.answers.map((answer) => ({ question, variable, answer })));
  }

  run(size: number): FlipSets {
    let completeTo = 0;
    while (completeTo < size && this.#lookAtAll(completeTo + 1)) completeTo += 1;
    const sets = this.#settled
      .filter(({ letter }) => letter !== this.#letter)
      .map(({ letter, choices }) => ({
        letter,
        answers: choices.map(({ variable, answer }) => ({ variable, answer })),
      }));
    return { sets, letter: this.#letter, completeTo };
  }

  /** Looks at every set of so many answers; false where the limit was met before. */
  #lookAtAll(count: number): boolean {
    for (const set of this.#setsOf(count, 0)) {
      if (this.#refuted.has(set) || this.#holdsSettled(set) || this.#isRefutedAnew(set)) continue;
      if (this.#looked >= this.#limit) return false;
      this.#lookAt(set);
    }
    return true;
  }

  *#setsOf(count: number, from: number): Generator<readonly Choice[]> {
    if (count === 0) return yield [];
    for (let question = from; question <= this.#questions.length - count; question++)
      for (const choice of this.#questions[question] ?? [])
        for (const rest of this.#setsOf(count - 1, question + 1)) yield [choice, ...rest];
  }

  #holdsSettled(set: readonly Choice[]): boolean {
    return this.#settled.some(({ choices }) => choices.every((choice) => set.includes(choice)));
  }

  #lookAt(set: readonly Choice[]): void {
    const left = this.#leftWith(set);
    if (!left) return;
    const { letter, isNone } = left;
    if (letter !== undefined) this.#settled.push({ letter, choices: set });
    if (isNone && set.length === 1) this.#ending.push(...set);
  }

  /** Makes up a record with these answers and one to every other fact, and keeps what it shows; true where the set is refuted by then. */
  #isRefutedAnew(set: readonly Choice[]): boolean {
    // Of single answers all are looked at: it is them that such records are made of.
    if (set.length < 2 || this.#looked >= this.#limit) return false;
    const choices = this.#questions.flatMap((ofQuestion, question) => this.#chosen(set, ofQuestion, question));
    const left = this.#leftWith(choices);
    if (!left) return false;
    for (const choice of choices) this.#used.set(choice, (this.#used.get(choice) ?? 0) + 1);
    this.#refuted.add(choices, left.letter);
    return this.#refuted.has(set);
  }

  /** The set's own answer; else one that leaves no score; else the answer in the fewest records so far. Of trials none: some exclude others. */
  #chosen(set: readonly Choice[], ofQuestion: readonly Choice[], question: number): readonly Choice[] {
    const own = set.find((choice) => choice.question === question);
    if (own) return [own];
    if (ofQuestion[0]?.variable.kind === 'trial') return [];
    const ending = this.#ending.find((choice) => set.every((one) => one.question !== choice.question));
    if (ending?.question === question) return [ending];
    const used = (choice: Choice): number => this.#used.get(choice) ?? 0;
    return ofQuestion.length === 0 ? [] : [ofQuestion.reduce((least, one) => (used(one) < used(least) ? one : least))];
  }

  /** The one letter left with these answers, if it is one and there is a score for certain; and is there none for certain? */
  #leftWith(choices: readonly Choice[]): { readonly letter: string | undefined; readonly isNone: boolean } | undefined {
    this.#looked += 1;
    const width = widthWithAll(this.#root, choices);
    if (!width) return undefined;
    const letters = lettersBetween(width, this.#root.readings);
    const isOne = letters.length === 1 && !width.includesNotScorable;
    return { letter: isOne ? letters[0] : undefined, isNone: letters.length === 0 };
  }
}
