// Runs in a thread of its own: is told once what to do, then answers batches of tasks one after the other, in the order they come.
import { parentPort } from 'node:worker_threads';
import { itemRescorer, packedAnswer, type RescoreSettings, type RescoreTask } from './rescore-items.ts';

parentPort?.once('message', (settings: RescoreSettings) => {
  const rescore = itemRescorer(settings);
  parentPort?.on('message', (tasks: readonly RescoreTask[]) =>
    parentPort?.postMessage(tasks.map((task) => packedAnswer(rescore(task)))),
  );
});
