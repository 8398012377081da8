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

/** Tasks to do, by which threads, and who hears of each batch as soon as it is done. */
export interface TaskRun {
  readonly settings: RescoreSettings;
  readonly tasks: readonly RescoreTask[];
  readonly threads: RescoreThreads;
  readonly onAnswers: (answers: readonly PackedAnswer[]) => void;
}

/** Few enough that a killed run loses little, many enough that messages cost little. */
const BATCH = 16;
/** One batch is worked on while the next waits at the worker, so that none stands idle. */
const AT_ONCE = 2;

/** Threads that load while an archive is still being listed, and wait for what they are to do. None for one worker: this thread does it. */
export class RescoreThreads {
  private readonly threads: readonly Thread[];

  constructor(workers: number) {
    this.threads = workers <= 1 ? [] : Array.from({ length: workers }, () => new Thread());
  }

  /** At most so many of them; the others end. */
  atMost(count: number): readonly Thread[] {
    for (const spare of this.threads.slice(count)) spare.end();
    return this.threads.slice(0, count);
  }

  end(): void {
    this.atMost(0);
  }
}

/** A thread can die before anybody works with it: that is kept until somebody does. */
class Thread {
  private readonly worker = startWorker();
  private died: Error | undefined;
  private onDeath: ((error: Error) => void) | undefined;

  constructor() {
    this.worker.on('error', (error) => {
      this.died = error;
      this.onDeath?.(error);
    });
  }

  /** Does batches of a queue until it is empty. Rejects when the thread dies. */
  work(
    queue: Iterator<readonly RescoreTask[]>,
    { settings, onAnswers }: Pick<TaskRun, 'settings' | 'onAnswers'>,
  ): Promise<void> {
    return new Promise((resolve, reject) => {
      this.onDeath = reject;
      if (this.died) reject(this.died);
      let waiting = 0;
      const send = (): boolean => {
        const { done, value } = queue.next();
        if (done) return false;
        this.worker.postMessage(value);
        waiting += 1;
        return true;
      };
      this.worker.on('message', (answers: readonly PackedAnswer[]) => {
        waiting -= 1;
        try {
          onAnswers(answers);
        } catch (error) {
          reject(error as Error);
          return;
        }
        if (!send() && waiting === 0) resolve();
      });
      this.worker.postMessage(settings);
      for (let sent = 0; sent < AT_ONCE && send(); sent += 1);
      if (waiting === 0) resolve();
    });
  }

  end(): void {
    void this.worker.terminate();
  }
}

/**
 * Does every task once: in as many threads as there are, at most one for each batch, or without any in this one. The order in which
 * batches come back is not fixed: whoever needs one sorts. Rejects when a thread dies, which is a fault of ours. The threads go
 * on until they are ended.
 */
export const runTasks = async ({ settings, tasks, threads, onAnswers }: TaskRun): Promise<void> => {
  const queue = batchesOf(tasks);
  const batches = Math.ceil(tasks.length / BATCH);
  const working = threads.atMost(batches > 1 ? batches : 0);
  if (working.length === 0) {
    const rescore = itemRescorer(settings);
    for (const batch of queue) onAnswers(batch.map((task) => packedAnswer(rescore(task))));
    return;
  }
  await Promise.all(working.map((thread) => thread.work(queue, { settings, onAnswers })));
};

function* batchesOf(tasks: readonly RescoreTask[]): Generator<readonly RescoreTask[], undefined> {
  for (let from = 0; from < tasks.length; from += BATCH) yield tasks.slice(from, from + BATCH);
}

/** From a build the worker is a file of its own; from the sources it is loaded by the loader that the tests and benches use. */
const startWorker = (): Worker => {
  if (!import.meta.url.endsWith('.ts')) return new Worker(join(packageRoot(), 'dist', 'rescore-worker.mjs'));
  // `require` finds the loader's CommonJS half; the module half that can register itself lies beside it.
  const loader = new URL('index.mjs', pathToFileURL(createRequire(import.meta.url).resolve('tsx/esm/api'))).href;
  const source = new URL('./rescore-worker.ts', import.meta.url).href;
  // A thread does not inherit the loader of the process: it registers its own, then loads the worker.
  const start = `import(${JSON.stringify(loader)}).then(({ register }) => { register(); return import(${JSON.stringify(source)}); })`;
  return new Worker(start, { eval: true, execArgv: [] });
};
