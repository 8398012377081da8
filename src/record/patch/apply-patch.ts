import { applyPatch as applyOperations, type Operation as LibraryOperation } from 'rfc6902';
import { type Keys, readPointer, valueAt } from './json-pointer.ts';
import type { Operation, Patch } from './operation.ts';
import { writtenPlaces } from './written-places.ts';

/** Why does an operation not fit a document, and at which place? */
export interface Misfit {
  /** `list`: the path leads into one; `no-map`: nothing to stand in; `absent`: nothing there; `test`: another value; or as the library says. */
  readonly why: 'list' | 'no-map' | 'absent' | 'test' | 'other';
  /** The place that is wrong: the path or the source of the operation. */
  readonly place: string;
  readonly operation: Operation;
  /** Position of the operation in the patch. */
  readonly index: number;
  /** What stands there, where a test fails. */
  readonly found?: unknown;
  readonly message: string;
}

/** What a patch makes of a document: the new one, or the first operation that does not fit. */
export type Applied<Document> =
  | { readonly fits: true; readonly document: Document }
  | ({ readonly fits: false } & Misfit);

/**
 * What becomes of a document under a patch (RFC 6902)? All of it or nothing. The document given stays as it is: maps along
 * the paths are copied, everything else is shared. A path into a list is refused: a list is replaced whole, since a
 * position in it means something else after the next change. Cost: the sizes of the maps along the paths.
 */
export const applyPatch = <Document>(document: Document, patch: Patch): Applied<Document> => {
  const [first] = patch;
  if (patch.length === 1 && first?.op === 'add' && first.path === '')
    return { fits: true, document: first.value as Document };
  const copy = new CopiedMaps(document);
  for (const [index, operation] of patch.entries()) {
    const misfit = misfitOf(copy.root, operation);
    if (misfit) return { fits: false, ...misfit, operation, index };
    if (operation.op !== 'test') for (const place of writtenPlaces(operation)) copy.open(place);
    const [error] = applyOperations(copy.root, [operation as LibraryOperation]);
    if (error) return { fits: false, ...saidByLibrary(error, operation, copy.root), operation, index };
  }
  return { fits: true, document: copy.root as Document };
};

type Said = Omit<Misfit, 'operation' | 'index'>;

const saidByLibrary = (error: Error, { op, path }: Operation, root: unknown): Said => {
  const { message } = error;
  if (op !== 'test' || error.name !== 'TestError') return { why: 'other', place: path, message };
  return { why: 'test', place: path, found: valueAt(root, readPointer(path) ?? []), message };
};

/** Why can an operation not be applied here, before the library is asked: lists, missing carriers, absent members. */
const misfitOf = (root: unknown, operation: Operation): Said | undefined => {
  const places = 'from' in operation ? [operation.from, operation.path] : [operation.path];
  for (const place of places) {
    const misfit = carrierMisfit(root, place, operation.op === 'test');
    if (misfit) return misfit;
  }
  if (operation.op === 'add' || operation.op === 'test') return undefined;
  const place = 'from' in operation ? operation.from : operation.path;
  if (valueAt(root, readPointer(place) ?? []) !== undefined) return undefined;
  return { why: 'absent', place, message: 'there is nothing at this place' };
};

const carrierMisfit = (root: unknown, place: string, mayBeMissing: boolean): Said | undefined => {
  let value = root;
  for (const key of readPointer(place) ?? []) {
    if (Array.isArray(value)) return { why: 'list', place, message: 'this path leads into a list' };
    if (typeof value !== 'object' || value === null)
      return mayBeMissing ? undefined : { why: 'no-map', place, message: 'there is no map at this place' };
    value = Object.hasOwn(value, key) ? (value as Record<string, unknown>)[key] : undefined;
  }
  return undefined;
};

/** A document whose maps are copied as soon as something in them is to be written, and not before. */
class CopiedMaps {
  readonly root: unknown;
  private readonly own = new WeakSet<object>();

  constructor(document: unknown) {
    this.root = this.copied(document);
  }

  /** Copies every map above a place. */
  open(place: Keys): void {
    let carrier = this.root as Record<string, unknown>;
    for (const key of place.slice(0, -1)) {
      const inner = carrier[key];
      if (typeof inner !== 'object' || inner === null) return;
      carrier[key] = this.copied(inner);
      carrier = carrier[key] as Record<string, unknown>;
    }
  }

  private copied<T>(value: T): T {
    if (typeof value !== 'object' || value === null || Array.isArray(value) || this.own.has(value)) return value;
    // A loop copies a log of a thousand entries in half the time that spreading takes; no key is a prototype's here.
    const copy: Record<string, unknown> = {};
    for (const key in value) copy[key] = (value as Record<string, unknown>)[key];
    this.own.add(copy);
    return copy as T;
  }
}
