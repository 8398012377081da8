import { createRequire } from 'node:module';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { Worker } from 'node:worker_threads';
import { packageRoot } from '../package-root.ts';
import {
  itemRescorer,
  type PackedAnswer,
  packedAnswer,
  type RescoreSettings,
  type RescoreTask,
} from './rescore-items.ts';

/** Tasks to do, by how many threads, and who hears of each batch as soon as it is done. */
export interface TaskRun {
  readonly settings: RescoreSettings;
  readonly tasks: readonly RescoreTask[];
  readonly workers: number;
  readonly onAnswers: (answers: readonly PackedAnswer[]) => void;
}

/** Few enough that a killed run loses little, many enough that messages cost little. */
const BATCH = 16;
/** One batch is worked on while the next waits at the worker, so that none stands idle. */
const AT_ONCE = 2;

/**
 * Does every task once. With one worker in this thread; with more in as many threads, at most one for each batch. The order in
 * which batches come back is not fixed: whoever needs one sorts. Rejects when a thread dies, which is a fault of ours.
 */
export const runTasks = async ({ settings, tasks, workers, onAnswers }: TaskRun): Promise<void> => {
  const threads = Math.min(workers, Math.ceil(tasks.length / BATCH));
  const queue = batchesOf(tasks);
  if (threads <= 1) {
    const rescore = itemRescorer(settings);
    for (const batch of queue) onAnswers(batch.map((task) => packedAnswer(rescore(task))));
    return;
  }
  await Promise.all(Array.from({ length: threads }, () => runThread(queue, settings, onAnswers)));
};

function* batchesOf(tasks: readonly RescoreTask[]): Generator<readonly RescoreTask[], undefined> {
  for (let from = 0; from < tasks.length; from += BATCH) yield tasks.slice(from, from + BATCH);
}

const runThread = (
  queue: Iterator<readonly RescoreTask[]>,
  settings: RescoreSettings,
  onAnswers: TaskRun['onAnswers'],
): Promise<void> =>
  new Promise((resolve, reject) => {
    const worker = startWorker(settings);
    let waiting = 0;
    const send = (): boolean => {
      const { done, value } = queue.next();
      if (done) return false;
      worker.postMessage(value);
      waiting += 1;
      return true;
    };
    const settle = (error?: Error): void => {
      void worker.terminate();
      if (error) reject(error);
      else resolve();
    };
    worker.on('error', settle);
    worker.on('message', (answers: readonly PackedAnswer[]) => {
      waiting -= 1;
      try {
        onAnswers(answers);
      } catch (error) {
        settle(error as Error);
        return;
      }
      if (!send() && waiting === 0) settle();
    });
    for (let sent = 0; sent < AT_ONCE && send(); sent += 1);
    if (waiting === 0) settle();
  });

/** From a build the worker is a file of its own; from the sources it is loaded by the loader that the tests and benches use. */
const startWorker = (settings: RescoreSettings): Worker => {
  if (!import.meta.url.endsWith('.ts'))
    return new Worker(join(packageRoot(), 'dist', 'rescore-worker.mjs'), { workerData: settings });
  // `require` finds the loader's CommonJS half; the module half that can register itself lies beside it.
  const loader = new URL('index.mjs', pathToFileURL(createRequire(import.meta.url).resolve('tsx/esm/api'))).href;
  const source = new URL('./rescore-worker.ts', import.meta.url).href;
  // A thread does not inherit the loader of the process: it registers its own, then loads the worker.
  const start = `import(${JSON.stringify(loader)}).then(({ register }) => { register(); return import(${JSON.stringify(source)}); })`;
  return new Worker(start, { eval: true, workerData: settings, execArgv: [] });
};
