import type { Assessment } from '#record/schema/assessment';
import type { SwapsVerdict } from '#verdict/swaps/swaps-verdict';
import { NewestLine, type NewestPort, type NewestSeen } from '../engine/newest-line.ts';
import type { BenchPlan } from './plan-of-bench.ts';
import type { NextAnswer, SwapsAnswer, SwapsRequest } from './swaps-messages.ts';

/** The worker's side of the line. */
export type SwapsPort = NewestPort<SwapsRequest, SwapsAnswer>;

interface Stages {
  readonly swaps?: SwapsVerdict | undefined;
  readonly swapsOf?: Assessment;
  readonly next?: NextAnswer;
  readonly nextOf?: Assessment;
  readonly plan?: BenchPlan;
  readonly planOf?: Assessment;
  /** In words, why there is no answer for the last document. */
  readonly problem?: string;
}

/** What the screen sees of the answers; each with the document it is of. The very same object until something changes. */
export type SwapsView = NewestSeen<Stages>;

/** Asks what the swaps came to, in stages; what an older document came to stays until the same stage of a newer one is there. */
export class SwapsClient extends NewestLine<SwapsRequest, SwapsAnswer, Stages> {
  constructor(start: () => SwapsPort) {
    super({ start, failed: stopped }, {});
  }

  protected override isLast({ last }: SwapsAnswer): boolean {
    return last;
  }

  protected override seen(answer: SwapsAnswer, { document: of }: SwapsRequest, before: Stages): Stages {
    if (answer.stage === 'problem') return { ...before, problem: answer.problem };
    const { problem: _mended, ...kept } = before;
    if (answer.stage === 'swaps') return { ...kept, swaps: answer.swaps, swapsOf: of };
    if (answer.stage === 'next') return { ...kept, next: answer.next, nextOf: of };
    return { ...kept, plan: answer.plan, planOf: of };
  }
}

const stopped = ({ generation }: SwapsRequest, words: string): SwapsAnswer => ({
  generation,
  stage: 'problem',
  problem: `${words} It starts again with the next change.`,
  last: true,
});
