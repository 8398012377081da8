import { ScoringQueue } from './answer-scores.ts';
import type { ScoringRequest } from './rubric-messages.ts';

const queue = new ScoringQueue();
// A message of its own comes after those already waiting: a newer rubric is heard between two documents.
const channel = new MessageChannel();
let isAwaited = false;

const workOn = (): void => {
  if (isAwaited) return;
  isAwaited = true;
  channel.port2.postMessage(undefined);
};

channel.port1.onmessage = () => {
  isAwaited = false;
  const answer = queue.next();
  if (!answer) return;
  self.postMessage(answer);
  workOn();
};

self.addEventListener('message', ({ data }: MessageEvent<ScoringRequest>) => {
  queue.hear(data);
  workOn();
});
