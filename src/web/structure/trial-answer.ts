import type { Device } from '#record/device/device';
import { pointerOf, valueAt } from '#record/patch/json-pointer';
import type { Json, Operation, Patch } from '#record/patch/operation';
import type { Assessment, Trial } from '#record/schema/assessment';
import type { OpenTrial } from '#routes/open-trials/with-trial';
import { recordOperations } from './record-operations.ts';

/** What came of a trial: under which key it goes into the record, on which specimen, on which day. */
export interface TrialAnswer {
  readonly key: string;
  readonly came: Trial['came'];
  readonly specimen: string | undefined;
  /** ISO day. */
  readonly date: string;
}

/** Under which keys does the trial of a part or fastener stand? */
const placeOf = (subject: string, key: string, device: Device): readonly string[] => [
  device.fasteners.has(subject) ? 'fasteners' : 'parts',
  subject,
  'trials',
  key,
];

/** Which patch records what came of a trial, with exactly what was off? A part that only a log names gets its record. */
export const trialPatch = (
  at: { readonly document: Assessment; readonly device: Device },
  { subject, off }: OpenTrial,
  { key, came, specimen, date }: TrialAnswer,
): Patch => {
  const place = placeOf(subject, key, at.device);
  const above = place.slice(0, -1);
  const trial = { off: [...off], came, ...(specimen === undefined ? {} : { specimen }), date };
  const add = (keys: readonly string[], value: Json): Operation => ({ op: 'add', path: pointerOf(keys), value });
  return [
    ...recordOperations(at, subject),
    ...(valueAt(at.document, above) === undefined ? [add(above, {})] : []),
    add(place, trial),
  ];
};

/** Which patch takes a trial back that was just recorded? It tests that nobody has touched it since; undefined where it is gone. */
export const takenBackPatch = (
  { document, device }: { readonly document: Assessment; readonly device: Device },
  subject: string,
  key: string,
): Patch | undefined => {
  const place = placeOf(subject, key, device);
  const stands = valueAt(document, place) as Json | undefined;
  if (stands === undefined) return undefined;
  const path = pointerOf(place);
  return [
    { op: 'test', path, value: stands },
    { op: 'remove', path },
  ];
};
