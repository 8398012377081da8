import type { Device } from '#record/device/device';
import type { SubjectTrials } from '#record/log/trials';
import { pointerOf } from '#record/patch/json-pointer';
import type { Operation, Patch } from '#record/patch/operation';
import type { Assessment } from '#record/schema/assessment';
import type { Occasion } from './occasions.ts';
import { recordOperations } from './record-operations.ts';

/** What had to be off, by sight: alternatives of sets; `[]` is known free; `undefined` is not known. */
export type SightAnswer = readonly (readonly string[])[] | undefined;

/** What the question of a part or fastener is asked with. */
export interface SightQuestion {
  /** What may be named in the answer, in the order to show it. */
  readonly candidates: readonly string[];
  /** The answer to begin with: the recorded one, else all that was off and was not done for another goal. */
  readonly answer: SightAnswer;
  /** The moment the first answer comes from; undefined where it never came off a specimen known to be complete. */
  readonly from: Occasion | undefined;
}

/**
 * What is asked of a part or fastener? Of a part, the fasteners that hold it are left out, since they must be undone anyway, and
 * so is what goes along with it. What never came off is asked with everything there is.
 */
export const sightQuestion = (
  subject: string,
  device: Device,
  shown: { readonly occasions: readonly Occasion[]; readonly trials: SubjectTrials },
): SightQuestion => {
  const { occasions, trials } = shown;
  const { crossing = [], cluster = [] } = device.parts.get(subject) ?? {};
  const own = new Set<string>([subject, ...crossing, ...cluster]);
  const recorded = recordedSight(subject, device);
  const shortest = trials.positive.find(({ address }) => occasions.some((one) => one.address === address));
  const from = occasions.find(({ address }) => address === shortest?.address) ?? occasions[0];
  const all = from?.off ?? [...device.parts.keys(), ...device.fasteners.keys()];
  const named = (recorded ?? []).flat();
  const candidates = [...new Set([...all.filter((id) => !own.has(id)), ...named])];
  const bound = (shortest?.off ?? from?.off ?? []).filter((id) => !own.has(id));
  const fresh = bound.length === 0 ? [] : [candidates.filter((id) => bound.includes(id))];
  return { candidates, answer: recorded ?? (from && fresh), from };
};

/** What does the record say had to be off before this part or fastener? */
export const recordedSight = (subject: string, device: Device): SightAnswer =>
  device.parts.get(subject)?.record?.behind ?? device.fasteners.get(subject)?.record?.behind;

/**
 * Which patch writes what had to be off? The whole list at once; what stood there is tested, so that nobody overwrites what
 * they did not see; "not known" takes it away. A part that only the log names gets its record, with the role it was taken for.
 * `undefined` where nothing changes. Throws a RangeError for a fastener that the record does not describe.
 */
export const behindPatch = (
  { document, device }: { readonly document: Assessment; readonly device: Device },
  subject: string,
  answer: SightAnswer,
): Patch | undefined => {
  const before = recordedSight(subject, device);
  const after = answer?.map((set) => [...set]);
  if (JSON.stringify(before) === JSON.stringify(after)) return undefined;
  const path = pointerOf([device.fasteners.has(subject) ? 'fasteners' : 'parts', subject, 'behind']);
  if (before !== undefined) {
    const seen: Operation = { op: 'test', path, value: before };
    return [seen, after === undefined ? { op: 'remove', path } : { op: 'replace', path, value: after }];
  }
  return [...recordOperations({ document, device }, subject), { op: 'add', path, value: after ?? [] }];
};
