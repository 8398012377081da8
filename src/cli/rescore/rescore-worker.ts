// Runs in a thread of its own: answers batches of tasks one after the other, in the order they come.
import { parentPort, workerData } from 'node:worker_threads';
import { itemRescorer, packedAnswer, type RescoreSettings, type RescoreTask } from './rescore-items.ts';

const rescore = itemRescorer(workerData as RescoreSettings);
parentPort?.on('message', (tasks: readonly RescoreTask[]) =>
  parentPort?.postMessage(tasks.map((task) => packedAnswer(rescore(task)))),
);
