import type { Operation, Patch } from './operation.ts';

/** Does this operation of a patch only make the map that something else of the patch is written into? */
export const isScaffold = ({ path }: Operation, patch: Patch): boolean =>
  patch.some((other) => other.op !== 'test' && other.path.startsWith(`${path}/`));
