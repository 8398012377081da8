import { answerSwaps } from './answer-swaps.ts';
import type { SwapsAnswer, SwapsRequest } from './swaps-messages.ts';

self.addEventListener('message', ({ data }: MessageEvent<SwapsRequest>) => {
  for (const answer of answerSwaps(data))
    self.postMessage({ ...answer, generation: data.generation } satisfies SwapsAnswer);
});
