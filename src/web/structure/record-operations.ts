import type { Device } from '#record/device/device';
import { firstRecord } from '#record/device/first-record';
import { pointerOf } from '#record/patch/json-pointer';
import type { Json, Operation } from '#record/patch/operation';
import type { Assessment } from '#record/schema/assessment';

/**
 * Which operations give a part its record where only a log names it, so that something can be written into it? None where it has
 * one. Throws a RangeError for a fastener without one: what it is and what it holds nobody can make up.
 */
export const recordOperations = (
  { document, device }: { readonly document: Assessment; readonly device: Device },
  subject: string,
): readonly Operation[] => {
  const fastener = device.fasteners.get(subject);
  if (fastener && !fastener.record) throw new RangeError(`${subject} is not described yet`);
  if (fastener || document.parts?.[subject]) return [];
  const add = (keys: readonly string[], value: Json): Operation => ({ op: 'add', path: pointerOf(keys), value });
  const record = JSON.parse(JSON.stringify(firstRecord(subject, device))) as Json;
  return [...(document.parts === undefined ? [add(['parts'], {})] : []), add(['parts', subject], record)];
};
