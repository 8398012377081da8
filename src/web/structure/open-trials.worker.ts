import { answerOpenTrials } from './answer-open-trials.ts';
import type { TrialsRequest } from './open-trials-messages.ts';

self.addEventListener('message', ({ data }: MessageEvent<TrialsRequest>) => self.postMessage(answerOpenTrials(data)));
