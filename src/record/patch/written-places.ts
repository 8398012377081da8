import { type Keys, readPointer } from './json-pointer.ts';
import type { Operation } from './operation.ts';

/** Which places does an operation write? A path that is no pointer counts as the whole document. */
export const writtenPlaces = (operation: Operation): readonly Keys[] => {
  if (operation.op === 'test') return [];
  const path = readPointer(operation.path) ?? [];
  return operation.op === 'move' ? [readPointer(operation.from) ?? [], path] : [path];
};
