import type { Assessment } from '#record/schema/assessment';
import type { Rubric } from '#verdict/rubric/rubric-schema';
import type { RubricScore } from '#verdict/rubric/score/rubric-score';

/** What the page tells the worker: a document to score from now on, or the rubrics to score every document by. */
export type ScoringRequest =
  | {
      readonly kind: 'document';
      readonly assessment: string;
      readonly revision: number;
      readonly document: Assessment;
    }
  | { readonly kind: 'rubrics'; readonly generation: number; readonly rubrics: readonly Rubric[] };

/** A score without its explanation, which the report and the command line show. */
export type BareScore = Omit<RubricScore, 'tree'>;

/** What the worker says of one document: a score for each rubric in the order asked, or in words why there is none. */
export type ScoringAnswer = {
  readonly generation: number;
  readonly assessment: string;
  readonly revision: number;
} & (
  | { readonly scores: readonly BareScore[]; readonly problem?: never }
  | { readonly problem: string; readonly scores?: never }
);
