import type { Assessment } from '#record/schema/assessment';
import type { BasisName } from '#schemes/eu-2023-1669/bases/index-inputs';
import { openStates } from '../bounds/open-state.ts';
import { groundworkOf, readingsOf } from '../index-bases.ts';
import { flipSets } from './flip-sets.ts';

/** The fewest answers that settle another letter on one basis, ready to be shown. */
export interface BasisFlips {
  readonly basis: BasisName;
  /** The letter as things stand; missing while a fact leaves it open. */
  readonly letter?: string;
  readonly sets: readonly {
    readonly letter: string;
    readonly answers: readonly {
      readonly question: string;
      readonly answer: string;
      readonly asks: string;
      readonly says: string;
    }[];
  }[];
  /** Every set of up to so many answers was looked at. */
  readonly completeTo: number;
}

/** Which fewest answers would settle another letter, on every basis that holds more than a public sheet? See `flipSets`. */
export const flipsOf = (assessment: Assessment, limit?: number): readonly BasisFlips[] =>
  openStates(groundworkOf(assessment), readingsOf(assessment)).map((state) => {
    const { sets, letter, completeTo } = flipSets(state, limit === undefined ? {} : { limit });
    return {
      basis: state.inputs.basis,
      ...(letter === undefined ? {} : { letter }),
      sets: sets.map((set) => ({
        letter: set.letter,
        answers: set.answers.map(({ variable, answer }) => ({
          question: variable.id,
          answer: answer.id,
          asks: variable.asks,
          says: answer.says,
        })),
      })),
      completeTo,
    };
  });
