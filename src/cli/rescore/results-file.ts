import { appendFileSync, closeSync, existsSync, ftruncateSync, openSync, readSync } from 'node:fs';
import { join } from 'node:path';
import { invariant } from '#quantity/unfasten-error';
import { RESCORING_METHOD, type RescoredItem } from '#verdict/rescore/rescoring';
import { makeFolder } from '../make-folder.ts';
import type { PackedAnswer } from './rescore-items.ts';

/** Results and structures that earlier runs left in a folder. */
export interface EarlierResults {
  /** Where the results of these rules begin in their file, by key of files, rubrics and method. */
  readonly places: ReadonlyMap<string, number>;
  readonly structures: ReadonlyMap<string, string>;
  /** How many results another version of the method left: they are not among those above. */
  readonly otherMethod: number;
  /** The result with a key that is among them. */
  readonly read: (key: string) => RescoredItem;
  /** Lets the file go. */
  readonly close: () => void;
}

/** One result as it is kept; of a line without a method nobody knows by which it was made. */
interface KeptResult {
  readonly key: string;
  readonly method?: string;
  /** By which rubrics and readings; lines of earlier versions do not say, and the key tells. */
  readonly rules?: string;
  readonly result: RescoredItem;
}

const RESULTS = 'results.jsonl';
const STRUCTURES = 'structures.jsonl';

/**
 * What did earlier runs leave for these rules? Results stay on disk; their places are held. A line that a kill broke off is cut
 * away, so that the next one begins a line of its own.
 */
export const readEarlier = (folder: string, ownRules: string): EarlierResults => {
  makeFolder(folder);
  const places = new Map<string, number>();
  const structures = new Map<string, string>();
  let otherMethod = 0;
  const isOfOthers = otherRules(ownRules);
  eachLine(join(folder, RESULTS), (line, at) => {
    if (isOfOthers(line)) return;
    const kept = parsedLine<KeptResult>(line);
    if (!kept) return;
    if (kept.method !== RESCORING_METHOD) otherMethod += 1;
    else if ((kept.rules ?? ownRules) === ownRules) places.set(kept.key, at);
  });
  eachLine(join(folder, STRUCTURES), (line) => {
    const kept = parsedLine<readonly [file: string, structure: string]>(line);
    if (kept) structures.set(...kept);
  });
  const chunk = Buffer.alloc(LINE_CHUNK);
  let handle: number | undefined;
  return {
    places,
    structures,
    otherMethod,
    read: (key) => {
      const at = places.get(key);
      invariant(at !== undefined, 'a known result has a place', key);
      handle ??= openSync(join(folder, RESULTS), 'r');
      return (JSON.parse(lineAt(handle, at, chunk)) as KeptResult).result;
    },
    close: () => {
      if (handle !== undefined) closeSync(handle);
    },
  };
};

/** How does the line of a result begin? As `JSON.stringify` would write it. */
const lineHead = (key: string, rules: string): string =>
  `{"key":${JSON.stringify(key)},"method":${JSON.stringify(RESCORING_METHOD)},"rules":${JSON.stringify(rules)}`;

/** Keeps a batch of answers: one write a file, appended. */
export const appendAnswers = (folder: string, rules: string, answers: readonly PackedAnswer[]): void => {
  const results = answers.flatMap((answer) =>
    answer.kind === 'scored' ? [`${lineHead(answer.key, rules)},"result":${answer.packed.json}}`] : [],
  );
  const structures = answers.flatMap((answer) => answer.structures.map((pair) => JSON.stringify(pair)));
  // Structures first: a kill between the two costs no route that was found.
  if (structures.length > 0) appendFileSync(join(folder, STRUCTURES), `${structures.join('\n')}\n`);
  if (results.length > 0) appendFileSync(join(folder, RESULTS), `${results.join('\n')}\n`);
};

const CHUNK = 1 << 16;
/** A result without its split by criterion is shorter [bytes]. */
const LINE_CHUNK = 1 << 12;

/** Is a line, by its beginning alone, a result of this method by other rules? Reading them all would cost more than many a run. */
const otherRules = (ownRules: string): ((line: Buffer) => boolean) => {
  const digest = '0'.repeat(ownRules.length);
  const pattern = Buffer.from(lineHead(digest, digest));
  const from = pattern.lastIndexOf(digest);
  const method = pattern.subarray(pattern.indexOf('"', 8 + digest.length), from);
  const own = Buffer.from(ownRules);
  return (line) => {
    const rules = line.subarray(from, from + own.length);
    return (
      line.subarray(from - method.length, from).equals(method) && rules.length === own.length && !rules.equals(own)
    );
  };
};

/** Reads line by line in one buffer, which grows with the longest line alone; cuts off what stands behind the last line end. */
const eachLine = (path: string, take: (line: Buffer, at: number) => void): void => {
  if (!existsSync(path)) return;
  const handle = openSync(path, 'r+');
  try {
    let buffer = Buffer.alloc(CHUNK);
    let [held, whole] = [0, 0];
    for (
      let read = readSync(handle, buffer);
      read > 0;
      read = readSync(handle, buffer, held, buffer.length - held, null)
    ) {
      held += read;
      let from = 0;
      for (let end = buffer.indexOf(10); end >= 0 && end < held; end = buffer.indexOf(10, from)) {
        take(buffer.subarray(from, end), whole);
        whole += end + 1 - from;
        from = end + 1;
      }
      buffer.copyWithin(0, from, held);
      held -= from;
      if (held === buffer.length) buffer = Buffer.concat([buffer, Buffer.alloc(held)]);
    }
    if (held > 0) ftruncateSync(handle, whole);
  } finally {
    closeSync(handle);
  }
};

/** The line that begins at a place, without its end; read through a buffer that is lent. */
const lineAt = (handle: number, at: number, chunk: Buffer): string => {
  const pieces: Buffer[] = [];
  for (let place = at; ; ) {
    const read = readSync(handle, chunk, 0, chunk.length, place);
    const end = chunk.subarray(0, read).indexOf(10);
    pieces.push(Buffer.from(chunk.subarray(0, end < 0 ? read : end)));
    if (end >= 0 || read === 0) return Buffer.concat(pieces).toString('utf8');
    place += read;
  }
};

/** What a line says; undefined where it is no JSON. */
const parsedLine = <Line>(line: Buffer): Line | undefined => {
  try {
    return JSON.parse(line.toString('utf8')) as Line;
  } catch (error) {
    if (error instanceof SyntaxError) return undefined;
    throw error;
  }
};
