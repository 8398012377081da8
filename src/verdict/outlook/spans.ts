import type { Assessment } from '#record/schema/assessment';
import type { BasisName } from '#schemes/eu-2023-1669/bases/index-inputs';
import { openStates } from '../bounds/open-state.ts';
import { groundworkOf, readingsOf } from '../index-bases.ts';
import { spanOf } from '../questions/rank-questions.ts';
import { type ShownSpan, shownSpan } from './shown-span.ts';

/** Between which ends does R lie on each basis, with nothing searched: wider than the ends of an outlook, or as wide? */
export const spansOf = (assessment: Assessment): readonly ({ readonly basis: BasisName } & ShownSpan)[] =>
  openStates(groundworkOf(assessment), readingsOf(assessment)).map((state) => ({
    basis: state.inputs.basis,
    ...shownSpan(spanOf(state)),
  }));
