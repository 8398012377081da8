import { describeError, isUnfastenError } from '#quantity/unfasten-error';
import type { Assessment } from '#record/schema/assessment';
import { diagnosedSwaps } from '#verdict/swaps/diagnosed-swaps';
import { nextSwapOf, swapPlanStages } from '#verdict/swaps/swap-plan-of';
import { swapsOf } from '#verdict/swaps/swaps-of';
import { benchPlan, suggestedRun } from './plan-of-bench.ts';
import type { NextAnswer, SwapsQuestion, SwapsStage } from './swaps-messages.ts';

/** What does the worker say of a document's swaps? First what the runs say, then what to run next; or the plan, stage by stage. */
export function* answerSwaps({ document, predecessor, wants }: SwapsQuestion): Generator<SwapsStage> {
  try {
    if (wants === 'plan') {
      yield* planAnswers(document);
      return;
    }
    yield { stage: 'swaps', swaps: swapsOf(document, predecessor ? { predecessor } : {}), last: false };
    yield { stage: 'next', next: nextAnswer(document), last: true };
  } catch (error) {
    yield { stage: 'problem', problem: inWords(error), last: true };
  }
}

const nextAnswer = (document: Assessment): NextAnswer => {
  const found = nextSwapOf(document);
  if (!found) return { why: NO_BENCH };
  const { problem, next } = found;
  const runs = [...diagnosedSwaps(document).runs.values()].flat();
  return next.run ? { run: suggestedRun(next.run, { problem, runs }) } : { why: ALL_DONE };
};

const NO_BENCH =
  'The record says of no part, or of no specimen, that it is at hand for swaps (swapBench), so no run is suggested. Begin one by hand.';
const ALL_DONE = 'No further run at this bench would decide more.';

function* planAnswers(document: Assessment): Generator<SwapsStage> {
  let isPlanned = false;
  for (const { plan, assumptions, isWhole } of swapPlanStages(document)) {
    isPlanned = true;
    yield { stage: 'plan', plan: benchPlan(plan, { document, assumptions, isWhole }), last: isWhole };
  }
  if (!isPlanned) yield { stage: 'problem', problem: NO_BENCH, last: true };
}

const inWords = (error: unknown): string =>
  isUnfastenError(error) ? describeError(error) : `Our mistake: ${String(error)}`;
