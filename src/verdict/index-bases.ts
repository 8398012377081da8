import type { Explained, MissingFact } from '#quantity/explained';
import type { Assessment } from '#record/schema/assessment';
import { routeProblem } from '#routes/problem/from-record';
import { knownProblem } from '#routes/problem/known-problem';
import type { RouteProblem } from '#routes/problem/route-problem';
import { routeSource } from '#routes/problem/route-source';
import type { RouteProblems } from '#schemes/eu-2023-1669/bases/best-search';
import { type BasisInputs, type BasisName, basisInputs } from '#schemes/eu-2023-1669/bases/index-inputs';
import type { IndexSource } from '#schemes/eu-2023-1669/bases/pairing';
import { evaluateIndex } from '#schemes/eu-2023-1669/evaluate-index';
import type { IndexForm } from '#schemes/eu-2023-1669/index-figures';
import { indexWidth } from '#schemes/eu-2023-1669/index-width';
import { type Interpretations, resolveInterpretations } from '#schemes/eu-2023-1669/interpretations';
import { sheetBasis } from './sheet-basis.ts';
import { settledRemoteNeeds } from './swaps/remote-needs.ts';

/** Everything that is worked out once a record, whatever the readings. */
export interface Groundwork {
  readonly source: IndexSource;
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
export const BASES: readonly BasisName[] = ['declared', 'observed', 'best'];

/**
 * What is worked out once a record: its device, trials, experience, what its swaps settled of remote actions, and the planning
 * problems of both kinds of reachability.
 */
export const groundworkOf = (assessment: Assessment): Groundwork =>
  groundworkFrom({ ...routeSource(assessment), remote: settledRemoteNeeds(assessment) });

/** The same from a source that is at hand. The problems are built when they are first asked for: the observed basis needs none. */
export const groundworkFrom = (source: IndexSource): Groundwork => {
  let problems: RouteProblems | undefined;
  return {
    source,
    get problems() {
      problems ??= knownProblems({
        pessimistic: knownProblem(routeProblem(source, 'pessimistic')),
        optimistic: knownProblem(routeProblem(source, 'optimistic')),
      });
      return problems;
    },
  };
};

const pairs = new WeakMap<RouteProblem, WeakMap<RouteProblem, RouteProblems>>();

/** The same two problems are the same pair, since what is found on both together is remembered by the pair. */
const knownProblems = (problems: RouteProblems): RouteProblems => {
  const byOptimistic = pairs.get(problems.pessimistic) ?? new WeakMap<RouteProblem, RouteProblems>();
  pairs.set(problems.pessimistic, byOptimistic);
  const old = byOptimistic.get(problems.optimistic) ?? problems;
  byOptimistic.set(problems.optimistic, old);
  return old;
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
    if (inputs) return [evaluatedBasis(inputs, readings)];
    const sheet = basis === 'declared' ? sheetBasis(groundwork.source.assessment) : undefined;
    return sheet ? [sheet] : [];
  });

/** What is the index from these inputs of one basis, with its width? */
export const evaluatedBasis = (inputs: BasisInputs, readings: Interpretations): IndexBasis => {
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
