import { pointerOf } from '#record/patch/json-pointer';
import type { Json, Operation } from '#record/patch/operation';
import type { Assessment } from '#record/schema/assessment';

/** A value as the record keeps it: what is undefined is left out. */
export const json = (value: unknown): Json => JSON.parse(JSON.stringify(value)) as Json;

/** Puts a value under a path of keys. */
export const add = (keys: readonly string[], value: unknown): Operation => ({
  op: 'add',
  path: pointerOf(keys),
  value: json(value),
});

/** Opens the map a thing goes into where the record has none yet. */
export const inMap = (document: Assessment, collection: keyof Assessment): readonly Operation[] =>
  document[collection] === undefined ? [add([collection], {})] : [];

/** Where an entry of a session lies. */
export const entryKeys = (session: string, entry: string): readonly string[] => ['sessions', session, 'entries', entry];
