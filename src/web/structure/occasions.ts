import type { Device } from '#record/device/device';
import { addressOf, benchRuns, type LoggedAction, startsComplete } from '#record/log/bench-log';
import { walkRun } from '#record/log/replay';
import type { SpecimenState } from '#record/log/specimen-state';
import type { Assessment } from '#record/schema/assessment';

/** A moment at which a part came off or a fastener let go, and all that was off then: parts first, each kind in the order it came off. */
export interface Occasion {
  readonly address: string;
  readonly off: readonly string[];
}

/**
 * When did each part come off and each fastener let go, and with what off? From the runs that began complete, first to last:
 * only there it is known what was off. For a part, what the same entry released counts as off. Cost: entries times what is off.
 */
export const occasionsOf = (document: Assessment, device: Device): ReadonlyMap<string, readonly Occasion[]> => {
  const found = new Map<string, Occasion[]>();
  for (const run of benchRuns(document).filter((one) => startsComplete(document, one)))
    walkRun({ assessment: document, device }, run, (action, before) => {
      for (const [subject, released] of cameNow(action, before, device)) {
        const known = found.get(subject) ?? [];
        const address = addressOf(action);
        if (!known.some((one) => one.address === address))
          found.set(subject, [...known, { address, off: offThen(subject, released, before) }]);
      }
    });
  return found;
};

/** What came by this action, each with what the action released besides. */
const cameNow = (
  { effects }: LoggedAction,
  before: SpecimenState,
  device: Device,
): readonly (readonly [subject: string, released: readonly string[]])[] => [
  ...[...effects.freed, ...effects.aside]
    .filter((id) => device.parts.has(id) && before.parts.get(id)?.state !== 'free')
    .map((id) => [id, effects.released] as const),
  ...effects.released
    .filter((id) => device.fasteners.has(id) && !before.released.has(id))
    .map((id) => [id, []] as const),
];

const offThen = (subject: string, released: readonly string[], before: SpecimenState): readonly string[] =>
  [...new Set([...before.parts.keys(), ...before.released.keys(), ...released])].filter((id) => id !== subject);
