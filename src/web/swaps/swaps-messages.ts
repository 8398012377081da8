import type { Assessment } from '#record/schema/assessment';
import type { SwapsVerdict } from '#verdict/swaps/swaps-verdict';
import type { BenchPlan, SuggestedRun } from './plan-of-bench.ts';

/** What the screen asks: what the swaps of a document came to, and what to do next. */
export interface SwapsQuestion {
  readonly document: Assessment;
  /** The predecessor's record, where it is on the shelf. */
  readonly predecessor?: Assessment | undefined;
  /** `plan`: the whole plan alone, which takes longer. */
  readonly wants?: 'plan' | undefined;
}

/** A question as it is put to the worker. */
export interface SwapsRequest extends SwapsQuestion {
  readonly generation: number;
}

/** What the worker says, in stages: what the runs say and the next run, or the plan as far as it is worked out; or in words why there is nothing more. */
export type SwapsStage = { readonly last: boolean } & (
  | { readonly stage: 'swaps'; readonly swaps: SwapsVerdict | undefined }
  | { readonly stage: 'next'; readonly next: NextAnswer }
  | { readonly stage: 'plan'; readonly plan: BenchPlan }
  | { readonly stage: 'problem'; readonly problem: string }
);

/** One of these, and which question it belongs to. */
export type SwapsAnswer = SwapsStage & { readonly generation: number };

/** The next run to make, or in words why there is none. */
export type NextAnswer =
  | { readonly run: SuggestedRun; readonly why?: never }
  | { readonly why: string; readonly run?: never };
