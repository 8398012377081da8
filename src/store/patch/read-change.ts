import { z } from 'zod';
import type { LocatedFault } from '#quantity/unfasten-error';
import { limits } from '#record/limits';
import { readPointer } from '#record/patch/json-pointer';
import type { Operation } from '#record/patch/operation';
import { id, moment, RESERVED_WORDS } from '#record/schema/basics';
import { canonicalJson } from '../canonical-json.ts';
import type { ChangeHead, ChangeRequest } from '../ledger.ts';
import { storeLimits } from '../store-limits.ts';
import { faultAt, refuseChange } from './patch-faults.ts';

const pointer = z.string().max(storeLimits.pathCharacters);
const patchSchema = z
  .array(
    z.discriminatedUnion('op', [
      z.strictObject({ op: z.enum(['add', 'replace', 'test']), path: pointer, value: z.json() }),
      z.strictObject({ op: z.literal('remove'), path: pointer }),
      z.strictObject({ op: z.enum(['move', 'copy']), from: pointer, path: pointer }),
    ]),
  )
  .min(1)
  .max(storeLimits.operationsPerChange);

/** The shape of what every change says of itself. */
const changeHeadShape = {
  assessment: id,
  change: z.uuid(),
  author: z.string().min(1).max(storeLimits.authorCharacters),
  at: moment,
  note: z.string().max(storeLimits.noteCharacters).optional(),
};
const headSchema = z.object(changeHeadShape);
const revision = z.int().min(1);

/** Throws kind `change` when what a change says of itself is malformed: author, time, ids, note, revision. */
export const checkChangeHead = (head: ChangeHead, revisions: Readonly<Record<string, number>> = {}): void => {
  const faults = faultsOf(headSchema, head, '');
  for (const [name, value] of Object.entries(revisions)) faults.push(...faultsOf(revision, value, name));
  if (faults.length > 0) throw refuseChange('The change is not complete', 'change', faults);
};

/**
 * Which operations does a request ask for? Checked for form, size and paths, and brought into the form in which they are
 * stored, so that what is applied is what a reader of the ledger will see. Throws kind `change`.
 */
export const readPatch = (request: ChangeRequest): { readonly patch: readonly Operation[]; readonly bytes: number } => {
  const { patch } = request;
  if (Array.isArray(patch) && patch.length > storeLimits.operationsPerChange) throw tooLarge('operationsPerChange');
  const text = canonicalJson(patch);
  const bytes = Buffer.byteLength(text);
  if (bytes > storeLimits.changeBytes) throw tooLarge('changeBytes');
  const stored: unknown = JSON.parse(text);
  const faults = hostileFaults(stored);
  if (faults.length === 0) faults.push(...faultsOf(patchSchema, stored, 'patch'));
  if (faults.length === 0) faults.push(...(stored as readonly Operation[]).flatMap(pathFaults));
  if (faults.length > 0) throw refuseChange('The patch cannot be taken', 'patch', faults);
  return { patch: stored as readonly Operation[], bytes };
};

/** Which maps are nested too deep, or hold a word every JavaScript object answers to? Ends at the first of each kind. */
export const hostileFaults = (value: unknown, depth = 0, path = ''): LocatedFault[] => {
  if (typeof value !== 'object' || value === null) return [];
  // A patch puts three levels (list, operation, value) around the document's own.
  if (depth > limits.depth + 3)
    return [faultAt(path, `maps and lists are nested deeper than ${limits.depth}`, { remedy: 'Flatten it.' })];
  for (const [key, inner] of Object.entries(value)) {
    const here = `${path}/${key}`;
    if (RESERVED_WORDS.includes(key) && !Array.isArray(value))
      return [faultAt(here, 'this word cannot be a field or an id', { value: key, remedy: 'Choose another id.' })];
    const found = hostileFaults(inner, depth + 1, here);
    if (found.length > 0) return found;
  }
  return [];
};

const pathFaults = (operation: Operation, index: number): readonly LocatedFault[] => {
  const paths = 'from' in operation ? [operation.from, operation.path] : [operation.path];
  return paths.flatMap((path) => {
    const keys = readPointer(path);
    const at = `patch/${index}`;
    if (keys === undefined)
      return [faultAt(at, 'a path is no JSON Pointer', { value: path, remedy: 'Write it as /parts/battery/mass.' })];
    if (keys.length === 0)
      return [
        faultAt(at, 'only the first change holds the whole document', { remedy: 'Name the places that change.' }),
      ];
    if (keys.length > storeLimits.pathSegments)
      return [
        faultAt(at, `a path has more than ${storeLimits.pathSegments} parts`, { value: path, remedy: 'Shorten it.' }),
      ];
    const reserved = keys.find((key) => RESERVED_WORDS.includes(key));
    return reserved === undefined
      ? []
      : [faultAt(at, 'this word cannot be a field or an id', { value: reserved, remedy: 'Choose another id.' })];
  });
};

const faultsOf = (schema: z.ZodType, value: unknown, where: string): LocatedFault[] => {
  const result = schema.safeParse(value);
  if (result.success) return [];
  return result.error.issues.map(({ path, message }) =>
    faultAt([where, ...path.map(String)].filter((part) => part !== '').join('/'), message, { remedy: 'Correct it.' }),
  );
};

const tooLarge = (name: 'operationsPerChange' | 'changeBytes') =>
  refuseChange(`The change is over the limit ${name} of ${storeLimits[name]}`, 'patch', [
    faultAt('patch', `over the limit ${name} of ${storeLimits[name]}`, { remedy: 'Send it in several changes.' }),
  ]);
