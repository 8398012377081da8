import { join } from 'node:path';
import { canonicalJson, sha256Hex } from '#store/canonical-json';
import type { Laboratory } from '#verdict/laboratory/laboratory-schema';
import { readBy } from '#verdict/laboratory/with-laboratory';
import { type FailedItem, namedRubric, RESCORING_METHOD, type Rescoring } from '#verdict/rescore/rescoring';
import type { Rubric } from '#verdict/rubric/rubric-schema';
import { type ArchiveItem, findAssessments } from './find-assessments.ts';
import { type PackedAnswer, type RescoreTask, rulesOf } from './rescore-items.ts';
import { appendAnswers, type EarlierResults, readEarlier } from './results-file.ts';
import { type PackedResult, packedResult, RunResults } from './run-results.ts';
import { RescoreThreads, runTasks } from './run-tasks.ts';

/** What to rescore, by what, and where results are kept. */
export interface ArchiveRequest {
  readonly archive: string;
  /** A second archive with the same records at a later state. */
  readonly then?: string;
  readonly before: Rubric;
  readonly after: Rubric;
  /** Is what each criterion adds split too? */
  readonly byCriterion: boolean;
  /** Whose readings hold where a record chooses none. */
  readonly laboratory?: Laboratory | undefined;
  readonly out: string;
  readonly workers: number;
}

/** How far is a run? */
export interface RunState {
  readonly done: number;
  readonly total: number;
  /** Results that an earlier run had left. */
  readonly known: number;
  readonly failed: number;
}

/** A finished run: its results, and how many of them an earlier run had left. */
export interface ArchiveRun {
  readonly rescoring: Rescoring;
  readonly known: number;
  /** Kept results of another version of the method, which were not used. */
  readonly otherMethod: number;
  /** Lets the results go, which lie on disk; they cannot be walked after it. */
  readonly close: () => void;
}

/**
 * How do the scores of an archive change? Results and the facts behind them are kept in `out` as they come, and what is there
 * already for the same files, rubrics and method is not made again. One bad file fails alone. The result does not depend on the
 * number of workers, nor on what was kept. Held in memory is what places need, some hundred bytes a record.
 */
export const rescoreArchive = async (
  request: ArchiveRequest,
  onState: (state: RunState) => void,
): Promise<ArchiveRun> => {
  const threads = new RescoreThreads(request.workers);
  try {
    return await rescoreBy(threads, request, onState);
  } finally {
    threads.end();
  }
};

const rescoreBy = async (
  threads: RescoreThreads,
  request: ArchiveRequest,
  onState: (state: RunState) => void,
): Promise<ArchiveRun> => {
  const { tasks, onlyBefore, onlyAfter } = tasksOf(request);
  const rules = rulesOf(request);
  const earlier = readEarlier(request.out, rules);
  const results = new RunResults(request.out);
  try {
    const { failed, known } = await takeAnswers({ request, rules, tasks, threads, earlier, results }, onState);
    const { before, after, laboratory } = request;
    const rescoring: Rescoring = {
      method: RESCORING_METHOD,
      before: namedRubric(before, digestOf(before)),
      after: namedRubric(after, digestOf(after)),
      ...(laboratory ? { readBy: readBy(laboratory) } : {}),
      twoArchives: request.then !== undefined,
      items: results.placed(),
      failed: failed.sort((a, b) => (a.item < b.item ? -1 : 1)),
      onlyBefore,
      onlyAfter,
    };
    return { rescoring, known, otherMethod: earlier.otherMethod, close: () => results.close() };
  } catch (error) {
    results.close();
    throw error;
  } finally {
    earlier.close();
  }
};

interface Taking {
  readonly request: ArchiveRequest;
  readonly rules: string;
  readonly tasks: readonly RescoreTask[];
  readonly threads: RescoreThreads;
  readonly earlier: EarlierResults;
  readonly results: RunResults;
}

/** Does every task and keeps what comes of it, batch by batch. */
const takeAnswers = async (
  { request, rules, tasks, threads, earlier, results }: Taking,
  onState: (state: RunState) => void,
): Promise<{ readonly failed: FailedItem[]; readonly known: number }> => {
  const { before, after, laboratory, byCriterion, out } = request;
  const failed: FailedItem[] = [];
  let known = 0;
  const resultOf = (answer: PackedAnswer): readonly PackedResult[] => {
    if (answer.kind === 'scored') return [answer.packed];
    if (answer.kind === 'known') return [packedResult({ ...earlier.read(answer.key), item: answer.item })];
    return [];
  };
  await runTasks({
    settings: {
      before,
      after,
      byCriterion,
      laboratory,
      factsFolder: join(out, 'facts'),
      known: new Set(earlier.places.keys()),
      structures: earlier.structures,
    },
    tasks,
    threads,
    onAnswers: (answers) => {
      appendAnswers(out, rules, answers);
      results.add(answers.flatMap(resultOf));
      for (const answer of answers) {
        if (answer.kind === 'failed') failed.push(answer.failed);
        if (answer.kind === 'known') known += 1;
      }
      onState({ done: results.count + failed.length, total: tasks.length, known, failed: failed.length });
    },
  });
  return { failed, known };
};

const digestOf = (rubric: Rubric): string => sha256Hex(canonicalJson(rubric));

interface Tasks {
  readonly tasks: readonly RescoreTask[];
  readonly onlyBefore: readonly string[];
  readonly onlyAfter: readonly string[];
}

const tasksOf = ({ archive, then, out }: ArchiveRequest): Tasks => {
  const first = findAssessments(archive, out);
  if (then === undefined)
    return { tasks: first.map((before) => ({ item: before.item, before })), onlyBefore: [], onlyAfter: [] };
  const later = findAssessments(then, out);
  const laterByItem = new Map<string, ArchiveItem>(later.map((each) => [each.item, each]));
  const firstItems = new Set(first.map(({ item }) => item));
  return {
    tasks: first.flatMap((before) => {
      const after = laterByItem.get(before.item);
      return after ? [{ item: before.item, before, after }] : [];
    }),
    onlyBefore: first.flatMap(({ item }) => (laterByItem.has(item) ? [] : [item])),
    onlyAfter: later.flatMap(({ item }) => (firstItems.has(item) ? [] : [item])),
  };
};
