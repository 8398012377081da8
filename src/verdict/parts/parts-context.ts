import type { RouteProblem } from '#routes/problem/route-problem';
import type { Interpretations } from '#schemes/eu-2023-1669/interpretations';
import type { Groundwork, IndexBasis } from '../index-bases.ts';
import type { Names } from '../words.ts';

/** What is every part judged from? */
export interface PartsContext {
  readonly groundwork: Groundwork;
  readonly readings: Interpretations;
  readonly bases: readonly IndexBasis[];
  readonly names: Names;
  /** What damage and being stranded are taken to cost in the expected time [ms]. */
  readonly losses: { readonly damageMilliseconds: number; readonly strandedMilliseconds: number };
  /** States a search may expand. */
  readonly nodeLimit: number;
}

/** The same with the problem that planners of time use: only ways that were shown and destroy nothing. */
export interface TimedContext extends PartsContext {
  readonly usable: RouteProblem;
}
