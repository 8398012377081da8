import { roleFromId } from '#record/device/priority-roles';
import { pointerOf, valueAt } from '#record/patch/json-pointer';
import type { Json, Operation, Patch } from '#record/patch/operation';
import type { Assessment } from '#record/schema/assessment';
import { recordName } from '#schemes/eu-2023-1669/bases/record-names';

/** One way to settle a variable: in words, and as the change of the record that says so. */
export interface OpenAnswer {
  /** Told apart from the variable's other answers; stable, and what `unfasten answer` takes. */
  readonly id: string;
  readonly says: string;
  readonly patch: Patch;
}

/**
 * Something not established that a figure depends on, with every answer it may have. A variable without answers is open in a
 * way no list of answers covers (a mark without a name, a part nobody took off): no end that rests on it is exact.
 */
export interface OpenVariable {
  /** The place in the record it is about; ids only, so that it is the same on every machine. */
  readonly id: string;
  readonly kind: 'fact' | 'trial';
  /** What an answer makes necessary: `product` only the scores of supply; `judging` the classes and counts of known routes; `routes` the routes. */
  readonly touches: 'product' | 'judging' | 'routes';
  /** A neutral question: no word of which answer is the better. */
  readonly asks: string;
  /** How the answer is found. */
  readonly remedy: string;
  readonly answers: readonly OpenAnswer[];
  /**
   * The answers that pull every figure down or up furthest on the scale, where one can say so without looking: where a search for
   * an end begins. A guess that is verified, never relied on.
   */
  readonly furthest?: { readonly low: string; readonly high: string };
  /** False where other answers than the listed are possible: then nothing is certain whatever the answer. */
  readonly covers?: false;
}

/** A choice of one answer. */
export interface Answered {
  readonly variable: OpenVariable;
  readonly answer: OpenAnswer;
}

/**
 * A patch that writes a value at a place, with the maps above it where the record has none yet. Existing members of a map at
 * the place stay unless the value names them.
 */
export const writing = (assessment: Assessment, keys: readonly string[], value: Json): Patch => {
  const operations: Operation[] = [];
  for (let depth = 1; depth < keys.length; depth++) {
    const above = keys.slice(0, depth);
    if (valueAt(assessment, above) === undefined)
      operations.push({ op: 'add', path: pointerOf(above), value: beginning(assessment, above) });
  }
  const old = valueAt(assessment, keys);
  const merged = isMap(old) && isMap(value) ? { ...old, ...value } : value;
  return [...operations, { op: 'add', path: pointerOf(keys), value: merged }];
};

/**
 * With what does a map begin that the record has not yet? A part that only a log names keeps the role its id was taken for:
 * a record of it without one would say that it has none. Tools begin with all that the logs name: once one is described, a log
 * may name no others.
 */
const beginning = (assessment: Assessment, [map, id, ...within]: readonly string[]): Json => {
  if (map === 'tools' && id === undefined) return toolsOfLogs(assessment);
  if (id === undefined || within.length > 0) return {};
  if (map === 'tools') return { name: recordName(assessment, 'tools', id) };
  const role = map === 'parts' ? roleFromId(id) : undefined;
  return role === undefined ? {} : { role };
};

const toolsOfLogs = (assessment: Assessment): Json => {
  const entries = Object.values(assessment.sessions ?? {}).flatMap(({ entries }) => Object.values(entries ?? {}));
  const ids = new Set(entries.flatMap(({ tools }) => tools ?? []));
  return Object.fromEntries([...ids].map((id) => [id, { name: recordName(assessment, 'tools', id) }]));
};

const isMap = (value: unknown): value is Readonly<Record<string, Json>> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);
