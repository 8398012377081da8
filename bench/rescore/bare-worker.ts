// The bare loop that the workers of rescoring are held against: the same work on every task given at the start, nothing else.
import { parentPort, workerData } from 'node:worker_threads';
import { itemRescorer, type RescoreSettings, type RescoreTask } from '#cli/rescore/rescore-items';

const { settings, tasks } = workerData as {
  readonly settings: RescoreSettings;
  readonly tasks: readonly RescoreTask[];
};
const rescore = itemRescorer(settings);
for (const task of tasks) rescore(task);
parentPort?.postMessage('done');
