import { describeError, isUnfastenError } from '#quantity/unfasten-error';
import { checkAssessment } from '#record/validate/check-assessment';
import { rubricFacts } from '#verdict/rubric/facts/rubric-facts';
import { metricOf, rolesOf } from '#verdict/rubric/linked-roles';
import { metricKey } from '#verdict/rubric/metric-kinds';
import type { RubricFacts } from '#verdict/rubric/metric-value';
import type { Rubric } from '#verdict/rubric/rubric-schema';
import { scoreFacts } from '#verdict/rubric/score/score-facts';
import type { BareScore, ScoringAnswer, ScoringRequest } from './rubric-messages.ts';

type Handed = Extract<ScoringRequest, { readonly kind: 'document' }>;

/**
 * Scores the documents it was handed by the rubrics it was last asked for, one document at a time. The facts of a document are
 * kept: another weight or cap is scored from them, and only a metric not asked for before is worked out anew.
 */
export class ScoringQueue {
  private readonly documents = new Map<string, Handed>();
  private readonly facts = new Map<string, { readonly of: Handed; readonly facts: RubricFacts }>();
  private readonly waiting = new Set<string>();
  private generation = 0;
  private rubrics: readonly Rubric[] = [];

  /** Takes in what the page says; what is to be scored anew waits for `next`. */
  hear(request: ScoringRequest): void {
    if (request.kind === 'document') {
      this.documents.set(request.assessment, request);
      this.waiting.add(request.assessment);
      return;
    }
    this.generation = request.generation;
    this.rubrics = request.rubrics;
    for (const assessment of this.documents.keys()) this.waiting.add(assessment);
  }

  /** Scores the next document that waits. Undefined where none does, or no rubric was asked for yet. */
  next(): ScoringAnswer | undefined {
    if (this.rubrics.length === 0) return undefined;
    const [assessment] = this.waiting;
    const handed = assessment === undefined ? undefined : this.documents.get(assessment);
    if (assessment === undefined || !handed) return undefined;
    this.waiting.delete(assessment);
    const head = { generation: this.generation, assessment, revision: handed.revision };
    try {
      const problem = firstError(handed);
      return problem === undefined ? { ...head, scores: this.scoresOf(handed) } : { ...head, problem };
    } catch (error) {
      return { ...head, problem: isUnfastenError(error) ? describeError(error) : `Our mistake: ${String(error)}` };
    }
  }

  private scoresOf(handed: Handed): readonly BareScore[] {
    const facts = this.factsOf(handed);
    return this.rubrics.map((rubric) => {
      const { tree: _explanation, ...score } = scoreFacts(rubric, facts);
      return score;
    });
  }

  private factsOf(handed: Handed): RubricFacts {
    const kept = this.facts.get(handed.assessment);
    if (kept?.of === handed && this.rubrics.every((rubric) => covers(kept.facts, rubric))) return kept.facts;
    const facts = rubricFacts({ assessment: handed.document }, this.rubrics);
    this.facts.set(handed.assessment, { of: handed, facts });
    return facts;
  }
}

/** Are all metrics and roles of a rubric among the facts? */
const covers = ({ metrics, roles }: RubricFacts, { criteria, caps = {} }: Rubric): boolean =>
  [...Object.values(criteria), ...Object.values(caps)].every(
    (item) => metricKey(metricOf(item)) in metrics && rolesOf(item).every((role) => role in roles),
  );

const firstError = ({ document }: Handed): string | undefined => {
  const error = checkAssessment(document).find(({ severity }) => severity === 'error');
  return error && `${error.path.join('/')}: ${error.message}. ${error.remedy}`;
};
