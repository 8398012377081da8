import type { Assessment } from '#record/schema/assessment';
import type { WeighedTrial } from '#routes/open-trials/open-trials';

/** What the review asks of its worker: which trials matter to this document? */
export interface TrialsRequest {
  readonly generation: number;
  readonly document: Assessment;
}

/** What the worker says: the trials, worst first, or in words why there are none to be had. */
export type TrialsAnswer = { readonly generation: number } & (
  | { readonly trials: readonly WeighedTrial[]; readonly problem?: never }
  | { readonly problem: string; readonly trials?: never }
);
