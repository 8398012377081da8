import type { Device } from '#record/device/device';
import { firstRecord } from '#record/device/first-record';
import type { Patch } from '#record/patch/operation';
import type { Assessment, Trial, Untried } from '#record/schema/assessment';
import { add, inMap } from './patch-parts.ts';

/** The record a question is asked of, and its device: what a part is that only a log names stands nowhere else. */
export interface AskedOf {
  readonly document: Assessment;
  readonly device: Device;
}

/** Records what came of a trial of a part: what was off, and whether it came. */
export const recordTrial = (
  source: AskedOf,
  part: string,
  { key, ...trial }: Trial & { readonly key: string },
): Patch => [
  ...inMap(source.document, 'parts'),
  ...inPart(source, part, 'trials'),
  add(['parts', part, 'trials', key], trial),
];

/** A question about a part that was put and waved off, under its key. */
export interface WavedOff extends Untried {
  readonly key: string;
  readonly part: string;
}

/** Records that questions were put and waved off, one a part. They stand beside the trials and are none of them. */
export const recordUntried = (source: AskedOf, questions: readonly WavedOff[]): Patch =>
  questions.length === 0
    ? []
    : [
        ...inMap(source.document, 'parts'),
        ...questions.flatMap(({ key, part, ...untried }) => [
          ...inPart(source, part, 'untried'),
          add(['parts', part, 'untried', key], untried),
        ]),
      ];

/** Opens one map of a part; a part that only a log names gets its first record. */
const inPart = ({ document, device }: AskedOf, part: string, map: 'trials' | 'untried'): Patch => {
  const record = document.parts?.[part];
  return [
    ...(record === undefined ? [add(['parts', part], firstRecord(part, device))] : []),
    ...(record?.[map] === undefined ? [add(['parts', part, map], {})] : []),
  ];
};
