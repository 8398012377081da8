import type { FactsRequest } from './facts/metric-source.ts';
import { rubricFacts } from './facts/rubric-facts.ts';
import type { Rubric } from './rubric-schema.ts';
import type { RubricScore } from './score/rubric-score.ts';
import { scoreFacts } from './score/score-facts.ts';

/**
 * What does a house rubric say of a record? 0 to 100 with width and explanation: the facts behind the metrics first
 * (`rubricFacts`), then the score of those facts (`scoreFacts`). Same record, verdict and rubric, same bytes.
 */
export const scoreByRubric = ({ rubric, ...request }: FactsRequest & { readonly rubric: Rubric }): RubricScore =>
  scoreFacts(rubric, rubricFacts(request, [rubric]));
