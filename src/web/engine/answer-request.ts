import { describeError, isUnfastenError } from '#quantity/unfasten-error';
import { showPath } from '#record/problem';
import type { Assessment } from '#record/schema/assessment';
import { checkAssessment } from '#record/validate/check-assessment';
import { verdictInStages } from '#verdict/compute-verdict';
import { groundworkOf } from '#verdict/index-bases';
import { withLaboratory } from '#verdict/laboratory/with-laboratory';
import { outlookInStages } from '#verdict/outlook/outlook';
import { type RouteWithTools, routesWithTools } from '#verdict/routes-with-tools';
import { scopeVerdict } from '#verdict/scope-verdict';
import type { EngineAnswer, EngineRequest, PartWithTools, ToolsAnswer, ToolsRequest } from './engine-messages.ts';

/**
 * What does the engine say to a request? The same code as the command line, in stages; nothing between two pieces of work. A
 * record with errors in it gives no figures, there as here: the first error comes back in words.
 */
export function* answersTo(request: EngineRequest): Generator<EngineAnswer | undefined> {
  const { generation, revision, document, laboratory, wants } = request;
  const head = { generation, revision };
  try {
    const problem = firstError(document);
    if (problem !== undefined) {
      yield { ...head, stage: 'problem', problem };
      return;
    }
    yield* verdictAnswers({ document, laboratory }, head);
    if (wants === 'outlook') yield* outlookAnswers(withLaboratory(document, laboratory), head);
  } catch (error) {
    yield { ...head, stage: 'problem', problem: inWords(error) };
  }
}

type Head = Pick<EngineRequest, 'generation' | 'revision'>;

function* verdictAnswers(
  { document, laboratory }: Pick<EngineRequest, 'document' | 'laboratory'>,
  head: Head,
): Generator<EngineAnswer | undefined> {
  // The digest names a published record; the page's is still being written.
  const stages = verdictInStages(document, { recordDigest: '', laboratory });
  for (;;) {
    const { done, value } = stages.next();
    if (done) {
      yield { ...head, stage: 'whole', verdict: value };
      return;
    }
    yield value && { ...head, stage: 'figures', figures: value };
  }
}

function* outlookAnswers(document: Assessment, head: Head): Generator<EngineAnswer | undefined> {
  if (scopeVerdict(document).inScope === false) {
    yield { ...head, stage: 'outlook', outlook: { bases: [], questions: [] }, last: true };
    return;
  }
  const stages = outlookInStages(document);
  for (;;) {
    const { done = false, value } = stages.next();
    yield value && { ...head, stage: 'outlook', outlook: value, last: done };
    if (done) return;
  }
}

/** What does the engine say when asked about tools? The same search as `unfasten routes --tools`, for every part. */
export const answerTools = ({ generation, revision, document, laboratory, tools }: ToolsRequest): ToolsAnswer => {
  const head = { generation, revision, tools };
  try {
    const error = firstError(document);
    if (error !== undefined) return { ...head, problem: error };
    const parts = routesWithTools(
      groundworkOf(withLaboratory(document, laboratory)),
      tools,
      Object.keys(document.parts ?? {}),
    );
    return { ...head, parts: parts.map(plainly) };
  } catch (error) {
    return { ...head, problem: inWords(error) };
  }
};

const plainly = ({ part, shown }: RouteWithTools): PartWithTools =>
  shown.kind === 'found'
    ? { part, steps: shown.steps, proved: shown.proved, actions: shown.route }
    : { part, why: shown.why, addTools: shown.addTools };

const firstError = (document: Assessment): string | undefined => {
  const errors = checkAssessment(document).filter(({ severity }) => severity === 'error');
  const [first] = errors;
  if (!first) return undefined;
  const more = errors.length > 1 ? ` And ${errors.length - 1} more.` : '';
  return `${showPath(first.path)}: ${first.message}. ${first.remedy}${more}`;
};

/** How is a failure of the engine said to a person? */
export const inWords = (error: unknown): string =>
  isUnfastenError(error) ? describeError(error) : `Our mistake: ${String(error)}`;
