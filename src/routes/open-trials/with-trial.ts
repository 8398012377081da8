import { firstRecord } from '#record/device/first-record';
import type { Assessment, Trial } from '#record/schema/assessment';
import type { RouteSource } from '../problem/from-record.ts';

/** A trial that nobody made yet: with exactly this off, does the part or fastener come? */
export interface OpenTrial {
  readonly subject: string;
  /** Parts aside or free, and fasteners released; in the order of a route. */
  readonly off: readonly string[];
}

/** Under this name a supposed trial stands in a record that is never kept. */
const SUPPOSED = 'supposed';

/** What would the record be, had this trial been made and the thing come, or not? The record given stays as it is. */
export const withTrial = (
  { assessment, device }: Pick<RouteSource, 'assessment' | 'device'>,
  { subject, off }: OpenTrial,
  came: 'yes' | 'no',
): Assessment => {
  const supposed: Trial = { off: [...off], came };
  const fastener = assessment.fasteners?.[subject];
  if (fastener) {
    const trials = { ...fastener.trials, [SUPPOSED]: supposed };
    return { ...assessment, fasteners: { ...assessment.fasteners, [subject]: { ...fastener, trials } } };
  }
  const part = assessment.parts?.[subject] ?? firstRecord(subject, device);
  const trials = { ...part.trials, [SUPPOSED]: supposed };
  return { ...assessment, parts: { ...assessment.parts, [subject]: { ...part, trials } } };
};

/** Was this very trial made? One that came but damaged something says neither yet, and waits for a ruling. */
export const isMade = ({ subject, off }: OpenTrial, { device }: Pick<RouteSource, 'device'>): boolean => {
  const record = device.parts.get(subject)?.record ?? device.fasteners.get(subject)?.record;
  const wanted = new Set(off);
  return Object.values(record?.trials ?? {}).some(
    (made) => made.off.length === wanted.size && made.off.every((id) => wanted.has(id)),
  );
};
