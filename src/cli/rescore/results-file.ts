import { appendFileSync, closeSync, existsSync, ftruncateSync, openSync, readSync } from 'node:fs';
import { join } from 'node:path';
import { RESCORING_METHOD, type RescoredItem } from '#verdict/rescore/rescoring';
import { makeFolder } from '../make-folder.ts';
import type { RescoreAnswer } from './rescore-items.ts';

/** Results and structures that earlier runs left in a folder. */
export interface EarlierResults {
  /** By key of files, rubrics and method. */
  readonly results: ReadonlyMap<string, RescoredItem>;
  readonly structures: ReadonlyMap<string, string>;
  /** How many results another version of the method left: they are not among those above. */
  readonly otherMethod: number;
}

/** One result as it is kept; of a line without a method nobody knows by which it was made. */
interface KeptResult {
  readonly key: string;
  readonly method?: string;
  readonly result: RescoredItem;
}

const RESULTS = 'results.jsonl';
const STRUCTURES = 'structures.jsonl';

/** What did earlier runs leave? A line that a kill broke off is cut away, so that the next one begins a line of its own. */
export const readEarlier = (folder: string): EarlierResults => {
  makeFolder(folder);
  const results = new Map<string, RescoredItem>();
  const structures = new Map<string, string>();
  let otherMethod = 0;
  eachLine(join(folder, RESULTS), ({ key, method, result }: KeptResult) => {
    if (method === RESCORING_METHOD) results.set(key, result);
    else otherMethod += 1;
  });
  eachLine(join(folder, STRUCTURES), ([file, structure]: readonly [string, string]) => structures.set(file, structure));
  return { results, structures, otherMethod };
};

/** Keeps a batch of answers: one write a file, appended. */
export const appendAnswers = (folder: string, answers: readonly RescoreAnswer[]): void => {
  const results = answers.flatMap((answer) =>
    answer.kind === 'scored'
      ? [JSON.stringify({ key: answer.key, method: RESCORING_METHOD, result: answer.result } satisfies KeptResult)]
      : [],
  );
  const structures = answers.flatMap((answer) => answer.structures.map((pair) => JSON.stringify(pair)));
  // Structures first: a kill between the two costs no route that was found.
  if (structures.length > 0) appendFileSync(join(folder, STRUCTURES), `${structures.join('\n')}\n`);
  if (results.length > 0) appendFileSync(join(folder, RESULTS), `${results.join('\n')}\n`);
};

const CHUNK = 1 << 16;

/** Reads line by line with little memory; cuts off what stands behind the last line end. A line that is no JSON is passed over. */
const eachLine = <Line>(path: string, take: (line: Line) => void): void => {
  if (!existsSync(path)) return;
  const handle = openSync(path, 'r+');
  try {
    const chunk = Buffer.alloc(CHUNK);
    let rest = Buffer.alloc(0);
    let whole = 0;
    for (let read = readSync(handle, chunk); read > 0; read = readSync(handle, chunk)) {
      let text = Buffer.concat([rest, chunk.subarray(0, read)]);
      for (let end = text.indexOf(10); end >= 0; end = text.indexOf(10)) {
        takeLine(text.subarray(0, end).toString('utf8'), take);
        whole += end + 1;
        text = text.subarray(end + 1);
      }
      rest = Buffer.from(text);
    }
    if (rest.length > 0) ftruncateSync(handle, whole);
  } finally {
    closeSync(handle);
  }
};

const takeLine = <Line>(text: string, take: (line: Line) => void): void => {
  try {
    take(JSON.parse(text) as Line);
  } catch (error) {
    if (!(error instanceof SyntaxError)) throw error;
  }
};
