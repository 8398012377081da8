import type { IndexForm } from '#schemes/eu-2023-1669/index-figures';
import type { OpenState } from './open-state.ts';

/** Which figure is looked at: R in ten-thousandths or one of its scores in hundredths. */
export type Objective = 'R' | 'SDD' | 'SF' | 'ST' | 'SSP' | 'SSU' | 'SRI';

/** What is the scaled value of a figure? Undefined where it is open or not scorable. */
export const scaledFigure = (form: IndexForm, objective: Objective): number | undefined => {
  const text = objective === 'R' ? form.R : form.scores[objective];
  return text === null || text === undefined
    ? undefined
    : Math.round(Number(text) * (objective === 'R' ? 10_000 : 100));
};

/** Which end of which figure is looked at? */
export interface FigureEnd {
  readonly objective: Objective;
  readonly end: 'low' | 'high';
}

/** Which value does a basis as it stands not go beyond at this end? Undefined where no number is possible there. */
export const boundOf = ({ index }: OpenState, { objective, end }: FigureEnd): number | undefined =>
  scaledFigure((end === 'low' ? index.low : index.high) ?? index.figures, objective);

/** Does one value lie further towards an end than another? */
export const isBeyond = (value: number, than: number, end: FigureEnd['end']): boolean =>
  end === 'low' ? value < than : value > than;
