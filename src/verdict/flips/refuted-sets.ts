import type { OpenAnswer, OpenVariable } from '../open/open-variable.ts';

/** One answer to one of the questions, by position. */
export interface Choice {
  readonly question: number;
  readonly variable: OpenVariable;
  readonly answer: OpenAnswer;
}

/** What is left of the letter with many questions answered: one letter, or more than that, or for certain none. */
export type Outcome = string | undefined;

/**
 * Which sets of answers are shown to settle nothing, by records with more answers in them? An answer never widens what is possible: where
 * a record that holds all answers of a set leaves the letter open, or has none, the set settles no letter; where two such records
 * have two letters, neither. Records are kept as bits, one an answer.
 */
export class RefutedSets {
  readonly #holding = new Map<Outcome, Map<Choice, bigint>>();
  #records = 0;

  /** Takes in a record with these answers, and what is left of the letter there; undefined refutes every set it holds. */
  add(choices: readonly Choice[], outcome: Outcome): void {
    const bit = 1n << BigInt(this.#records++);
    const holding = this.#holding.get(outcome) ?? new Map<Choice, bigint>();
    this.#holding.set(outcome, holding);
    for (const choice of choices) holding.set(choice, (holding.get(choice) ?? 0n) | bit);
  }

  /** Is the set shown to settle nothing? */
  has(set: readonly Choice[]): boolean {
    const outcomes = [...this.#holding].filter(([, holding]) => this.#isHeld(holding, set)).map(([outcome]) => outcome);
    return outcomes.includes(undefined) || outcomes.length > 1;
  }

  #isHeld(holding: ReadonlyMap<Choice, bigint>, set: readonly Choice[]): boolean {
    let records = -1n;
    for (const choice of set) {
      records &= holding.get(choice) ?? 0n;
      if (records === 0n) return false;
    }
    return true;
  }
}
