import type { Explained, MissingFact } from '#quantity/explained';
import { deviceOf } from '#record/device/device';
import { experienceOf } from '#record/log/experience';
import { trialsOf } from '#record/log/trials';
import type { Assessment } from '#record/schema/assessment';
import { type RouteSource, routeProblem } from '#routes/problem/from-record';
import type { RouteProblems } from '#schemes/eu-2023-1669/bases/best-search';
import { type BasisInputs, type BasisName, basisInputs } from '#schemes/eu-2023-1669/bases/index-inputs';
import { evaluateIndex } from '#schemes/eu-2023-1669/evaluate-index';
import type { IndexForm } from '#schemes/eu-2023-1669/index-figures';
import { indexWidth } from '#schemes/eu-2023-1669/index-width';
import { type Interpretations, resolveInterpretations } from '#schemes/eu-2023-1669/interpretations';
import { sheetBasis } from './sheet-basis.ts';

/** Everything that is worked out once a record, whatever the readings. */
export interface Groundwork {
  readonly source: RouteSource;
  readonly problems: RouteProblems;
}

/** One basis of the index: the plain figures, their width where something is open, the tree, and what each part rests on. */
export interface IndexBasis {
  readonly basis: BasisName;
  readonly figures: IndexForm;
  readonly tree: Explained;
  readonly low?: IndexForm;
  readonly high?: IndexForm;
  readonly mayBeNotScorable: boolean;
  readonly missing: readonly MissingFact[];
  readonly inputs?: BasisInputs;
}

/** The three bases, in the order they are shown. */
const BASES: readonly BasisName[] = ['declared', 'observed', 'best'];

/** What is worked out once a record: its device, trials, experience, and the planning problems of both kinds of reachability. */
export const groundworkOf = (assessment: Assessment): Groundwork => {
  const device = deviceOf(assessment);
  const source: RouteSource = {
    assessment,
    device,
    trials: trialsOf(assessment, device),
    experience: experienceOf(assessment, device),
  };
  return {
    source,
    problems: { pessimistic: routeProblem(source, 'pessimistic'), optimistic: routeProblem(source, 'optimistic') },
  };
};

/** Which readings does a record choose? Its own, the rest by default; what it chooses wrongly is listed by the reader's checks. */
export const readingsOf = (assessment: Assessment): Interpretations =>
  resolveInterpretations(
    Object.fromEntries(Object.entries(assessment.interpretations ?? {}).map(([id, { value }]) => [id, value])),
  ).interpretations;

/** What is the index on each basis the record holds something for, under these readings? */
export const indexBases = (groundwork: Groundwork, readings: Interpretations): readonly IndexBasis[] =>
  BASES.flatMap((basis) => {
    const inputs = basisInputs(basis, { ...groundwork, readings });
    if (inputs) return [evaluated(inputs, readings)];
    const sheet = basis === 'declared' ? sheetBasis(groundwork.source.assessment) : undefined;
    return sheet ? [sheet] : [];
  });

const evaluated = (inputs: BasisInputs, readings: Interpretations): IndexBasis => {
  const main = evaluateIndex(inputs.main, readings);
  const width = indexWidth(inputs.wide, readings);
  const open =
    JSON.stringify(width.low) !== JSON.stringify(main.figures) ||
    JSON.stringify(width.high) !== JSON.stringify(main.figures);
  const wideTree = evaluateIndex(inputs.wide, readings).tree;
  return {
    basis: inputs.basis,
    figures: main.figures,
    tree: main.tree,
    ...(open ? { low: width.low, high: width.high } : {}),
    mayBeNotScorable: width.includesNotScorable,
    missing: distinct([...main.tree.missing, ...wideTree.missing]),
    inputs,
  };
};

const distinct = (missing: readonly MissingFact[]): readonly MissingFact[] => {
  const seen = new Set<string>();
  return missing.filter((fact) => {
    const key = `${fact.address}\n${fact.what}`;
    if (seen.has(key)) return false;
    seen.add(key);
    return true;
  });
};
