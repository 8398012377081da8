import { answerOdds } from './answer-odds.ts';
import { answerTools } from './answer-request.ts';
import type { EngineRequest, OddsRequest, ToolsRequest } from './engine-messages.ts';
import { StagedAnswers } from './staged-answers.ts';

// A message of its own comes after those already waiting, and unlike a timer it is never held back.
const channel = new MessageChannel();
const waiting: (() => void)[] = [];
channel.port1.onmessage = () => waiting.shift()?.();

const answers = new StagedAnswers({
  post: (answer) => self.postMessage(answer),
  later: (work) => {
    waiting.push(work);
    channel.port2.postMessage(undefined);
  },
  now: () => performance.now(),
});

self.addEventListener('message', ({ data }: MessageEvent<EngineRequest | OddsRequest | ToolsRequest>) => {
  if ('tools' in data) self.postMessage(answerTools(data));
  else if ('odds' in data) self.postMessage(answerOdds(data));
  else answers.begin(data);
});
