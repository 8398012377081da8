import type { Device } from '#record/device/device';
import { loggedActions } from '#record/log/bench-log';
import type { Assessment } from '#record/schema/assessment';

/**
 * How often was a connector of a specimen mated again in its sessions? The larger of how often it was undone and how often it was
 * plugged in: what was undone has to be mated again before the next run. The mating at the factory is not counted, nor are
 * sessions of kind swap, whose fits the record counts as runs. Linear in the log.
 */
export const matingsUsed = (
  assessment: Assessment,
  device: Device,
): ((specimen: string, fastener: string) => number) => {
  const undone = new Map<string, number>();
  const plugged = new Map<string, number>();
  const count = (counts: Map<string, number>, specimen: string, ids: readonly string[]): void => {
    for (const id of ids) counts.set(key(specimen, id), (counts.get(key(specimen, id)) ?? 0) + 1);
  };
  for (const [id, session] of Object.entries(assessment.sessions ?? {})) {
    if (session.kind === 'swap') continue;
    for (const { effects } of loggedActions(assessment, device, id)) {
      count(undone, session.specimen, effects.released);
      count(plugged, session.specimen, effects.refitted);
    }
  }
  return (specimen, fastener) =>
    Math.max(undone.get(key(specimen, fastener)) ?? 0, plugged.get(key(specimen, fastener)) ?? 0);
};

const key = (specimen: string, fastener: string): string => `${specimen}\n${fastener}`;
