import { pointerOf } from '#record/patch/json-pointer';
import type { Patch } from '#record/patch/operation';
import type { Assessment, Fastener } from '#record/schema/assessment';

/** What must be said of a fastener that only a log names, or whose ends nobody said, before anything else can be: its kind, and what it holds together. */
export interface FastenerDescription {
  readonly kind: Fastener['kind'];
  readonly between: readonly [string, string];
}

/**
 * Which patch describes a fastener that only a log names? Where it is recorded without its ends, these are added and the rest
 * stays. Undefined where it holds a thing to itself, which nothing does.
 */
export const describePatch = (
  document: Assessment,
  fastener: string,
  { kind, between: [a, b] }: FastenerDescription,
): Patch | undefined => {
  if (a === b) return undefined;
  const record = document.fasteners?.[fastener];
  if (record)
    return [
      { op: 'test', path: pointerOf(['fasteners', fastener, 'kind']), value: record.kind },
      { op: 'replace', path: pointerOf(['fasteners', fastener, 'kind']), value: kind },
      { op: 'add', path: pointerOf(['fasteners', fastener, 'between']), value: [a, b] },
    ];
  return [
    ...(document.fasteners === undefined ? [{ op: 'add', path: '/fasteners', value: {} } as const] : []),
    { op: 'add', path: pointerOf(['fasteners', fastener]), value: { kind, between: [a, b] } },
  ];
};
