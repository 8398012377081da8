import { describeError, isUnfastenError } from '#quantity/unfasten-error';
import { openTrials } from '#routes/open-trials/open-trials';
import { countingRulesFor } from '#schemes/eu-2023-1669/readings';
import { readingsOf } from '#verdict/index-bases';
import type { TrialsAnswer, TrialsRequest } from './open-trials-messages.ts';

/** Which trials matter to a document, worst first? Steps are counted under its own readings. */
export const answerOpenTrials = ({ generation, document }: TrialsRequest): TrialsAnswer => {
  try {
    return { generation, trials: openTrials(document, countingRulesFor(readingsOf(document))) };
  } catch (error) {
    const problem = isUnfastenError(error) ? describeError(error) : `Our mistake: ${String(error)}`;
    return { generation, problem };
  }
};
