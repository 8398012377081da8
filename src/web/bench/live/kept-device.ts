import { type Device, deviceOf } from '#record/device/device';
import { jointsOf } from '#record/device/joints';
import { loggedSubjects } from '#record/device/logged-subjects';
import { standingEntries } from '#record/log/bench-log';
import type { Assessment, Entry } from '#record/schema/assessment';
import { saysNothing } from './log-so-far.ts';

interface KeptDevice {
  readonly document: Assessment;
  readonly device: Device;
  /** The entries that name something, since a device follows from them and the described. */
  readonly naming: readonly Entry[];
  /** What only they name, in words. */
  readonly logged: string;
}

/** How many devices are kept: that of now, and those that earlier marks are seen from. */
const KEPT = 4;

let kept: readonly KeptDevice[] = [];

/** The device of a document: the very same object while what it follows from is the same, as after a mark. */
export const keptDevice = (document: Assessment): Device => {
  const found = kept.find((one) => one.document === document) ?? withDevice(document);
  kept = [found, ...kept.filter((one) => one !== found)].slice(0, KEPT);
  return found.device;
};

const withDevice = (document: Assessment): KeptDevice => {
  const described = kept.filter(
    (one) => one.document.parts === document.parts && one.document.fasteners === document.fasteners,
  );
  const naming = namingEntries(document);
  const same = described.find((one) => isSameList(one.naming, naming));
  if (same) return { ...same, document };
  const { parts, fasteners } = loggedSubjects(document, described[0]?.device.joints ?? jointsOf(document));
  const logged = JSON.stringify([[...parts], [...fasteners]]);
  const device = described.find((one) => one.logged === logged)?.device ?? deviceOf(document);
  return { document, device, naming, logged };
};

const namingEntries = ({ sessions }: Assessment): readonly Entry[] =>
  Object.values(sessions ?? {})
    .toSorted((a, b) => Date.parse(a.start) - Date.parse(b.start))
    .flatMap((session) => standingEntries(session).flatMap(([, entry]) => (saysNothing(entry) ? [] : [entry])));

const isSameList = (a: readonly Entry[], b: readonly Entry[]): boolean =>
  a.length === b.length && a.every((entry, index) => entry === b[index]);
