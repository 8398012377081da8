import { keysOf, valueAt } from '#record/patch/json-pointer';
import type { Operation, Patch } from '#record/patch/operation';
import type { Assessment } from '#record/schema/assessment';

/**
 * Which patch makes my version hold over what stands now? Tests of the old state fall away; what was to be replaced or
 * removed is written or removed whatever stands there. A map that was to be opened and is there already stays as it is: what
 * others put into it is not mine to take away. `undefined` where the map above a place is gone: then there is
 * nothing left that my version could stand in.
 */
export const keepMinePatch = (document: Assessment, wanted: Patch): Patch | undefined => {
  const patch: Operation[] = [];
  for (const operation of wanted) {
    if (operation.op === 'test') continue;
    const present = valueAt(document, keysOf(operation.path));
    const isWritten = patch.some(({ path }) => operation.path === path || operation.path.startsWith(`${path}/`));
    const above = valueAt(document, keysOf(operation.path).slice(0, -1));
    if (!isWritten && (typeof above !== 'object' || above === null)) return undefined;
    if (operation.op === 'remove') {
      if (present !== undefined || isWritten) patch.push(operation);
    } else if (operation.op === 'replace' || operation.op === 'add') {
      if (isEmptyMap(operation.value) && isMap(present)) continue;
      patch.push({ op: 'add', path: operation.path, value: operation.value });
    } else {
      if (valueAt(document, keysOf(operation.from)) === undefined) return undefined;
      patch.push(operation);
    }
  }
  return patch.length === 0 ? undefined : patch;
};

const isMap = (value: unknown): value is object => typeof value === 'object' && value !== null && !Array.isArray(value);

const isEmptyMap = (value: unknown): boolean => isMap(value) && Object.keys(value).length === 0;
