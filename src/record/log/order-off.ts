import type { Device } from '../device/device.ts';
import type { Assessment } from '../schema/assessment.ts';
import { benchRuns, runActions, startsComplete } from './bench-log.ts';

/**
 * In which order did things come off? Ids of fasteners released and parts moved, each where it first came off, in the run of a
 * specimen known to be complete in which most came off; of equals the first begun. Retakes and what was put back change nothing:
 * a thing counts once. Linear in the log.
 */
export const orderOff = (assessment: Assessment, device: Device): readonly string[] => {
  let longest: readonly string[] = [];
  for (const run of benchRuns(assessment)) {
    if (!startsComplete(assessment, run)) continue;
    const off = new Set<string>();
    for (const { effects } of runActions({ assessment, device }, run))
      for (const id of [...effects.released, ...effects.freed, ...effects.aside]) off.add(id);
    if (off.size > longest.length) longest = [...off];
  }
  return longest;
};
