import type { MissingFact } from '#quantity/explained';
import { deviceOf } from '#record/device/device';
import type { Assessment } from '#record/schema/assessment';
import { type BasisInputs, type BasisName, basisInputs } from '#schemes/eu-2023-1669/bases/index-inputs';
import { productFacts } from '#schemes/eu-2023-1669/bases/product-facts';
import { type IndexWidth, indexWidth } from '#schemes/eu-2023-1669/index-width';
import type { Interpretations } from '#schemes/eu-2023-1669/interpretations';
import {
  BASES,
  evaluatedBasis,
  type Groundwork,
  groundworkFrom,
  groundworkOf,
  type IndexBasis,
} from '../index-bases.ts';
import { applyAnswer } from '../open/apply-answer.ts';
import { isKitFact } from '../open/kit-variables.ts';
import type { Answered } from '../open/open-variable.ts';
import { untouchedParts } from './untouched-parts.ts';

/** A record with some answers in it, and the index on one basis from it. */
export interface OpenState {
  readonly assessment: Assessment;
  readonly groundwork: Groundwork;
  readonly readings: Interpretations;
  readonly inputs: BasisInputs;
  readonly index: IndexBasis;
  /** What any basis of the record asks of the kits of spare parts: one question a kit, the same on every basis. */
  readonly kitFacts: readonly MissingFact[];
  readonly answers: readonly Answered[];
}

/** Where one basis stands with nothing answered yet, taken by itself. Undefined where the record holds nothing for it but a public sheet. */
export const openState = (
  basis: BasisName,
  groundwork: Groundwork,
  readings: Interpretations,
): OpenState | undefined => {
  const inputs = basisInputs(basis, { ...groundwork, readings });
  if (!inputs) return undefined;
  const { assessment } = groundwork.source;
  const index = evaluatedBasis(inputs, readings);
  return { assessment, groundwork, readings, inputs, index, kitFacts: index.missing.filter(isKitFact), answers: [] };
};

/** The bases of a record that questions can be put on, in the order they are shown; none where only a public sheet is known. */
export const openStates = (groundwork: Groundwork, readings: Interpretations): readonly OpenState[] =>
  withKitsOfAll(BASES.flatMap((basis) => openState(basis, groundwork, readings) ?? []));

const withKitsOfAll = (states: readonly OpenState[]): readonly OpenState[] => {
  const kitFacts = states.flatMap((state) => state.kitFacts);
  return states.map((state) => ({ ...state, kitFacts }));
};

/**
 * Where does the basis stand with one more answer? Works out again only what the answer can touch. Undefined where the basis
 * has nothing left to stand on.
 */
export const withAnswer = (state: OpenState, answered: Answered): OpenState | undefined =>
  withAnswers(state, [answered]);

/** The same with several answers at once, each made for the record as the ones before it leave it. */
export const withAnswers = (state: OpenState, answered: readonly Answered[]): OpenState | undefined => {
  const next = answeredInputs(state, answered);
  if (!next) return undefined;
  const index = evaluatedBasis(next.inputs, state.readings);
  return { ...state, ...next, index, answers: [...state.answers, ...answered] };
};

/** Between which forms does the index lie with one more answer? The same without its figures explained, at half the cost. */
export const widthWith = (state: OpenState, answered: Answered): IndexWidth | undefined =>
  widthWithAll(state, [answered]);

/** The same with several answers at once, each made for the record as the ones before it leave it. */
export const widthWithAll = (state: OpenState, answered: readonly Answered[]): IndexWidth | undefined => {
  const next = answeredInputs(state, answered);
  return next && indexWidth(next.inputs.wide, state.readings);
};

const answeredInputs = (
  state: OpenState,
  answered: readonly Answered[],
): Pick<OpenState, 'assessment' | 'groundwork' | 'inputs'> | undefined => {
  const { readings, inputs: before } = state;
  const assessment = answered.reduce((record, { answer }) => applyAnswer(record, answer), state.assessment);
  const groundwork = groundworkAfter(state, assessment, answered);
  if (answered.every(({ variable }) => variable.touches === 'product'))
    return { assessment, groundwork, inputs: withProductFacts(before, assessment, readings) };
  const inputs = basisInputs(before.basis, {
    source: groundwork.source,
    // Not looked at on a basis without routes, and then not built.
    get problems() {
      return groundwork.problems;
    },
    readings,
    kept: untouchedParts(before, answered, assessment),
  });
  return inputs && { assessment, groundwork, inputs };
};

const groundworkAfter = (
  { groundwork }: OpenState,
  assessment: Assessment,
  answered: readonly Answered[],
): Groundwork => {
  const variables = answered.map(({ variable }) => variable).filter(({ touches }) => touches === 'routes');
  if (variables.length === 0) return withAssessment(groundwork, assessment);
  // In which class a way leaves its fastener changes the device, and nothing that was tried or done.
  if (variables.every(({ kind, id }) => kind === 'fact' && /^fasteners\/[^/]+\/ways$/.test(id)))
    return groundworkFrom({ ...groundwork.source, assessment, device: deviceOf(assessment) });
  return groundworkOf(assessment);
};

const withAssessment = (groundwork: Groundwork, assessment: Assessment): Groundwork => ({
  source: { ...groundwork.source, assessment },
  get problems() {
    return groundwork.problems;
  },
});

const withProductFacts = (inputs: BasisInputs, assessment: Assessment, readings: Interpretations): BasisInputs => {
  const facts = productFacts(assessment, readings);
  return { ...inputs, main: { ...inputs.main, ...facts }, wide: { ...inputs.wide, ...facts } };
};
