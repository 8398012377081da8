import type { Assessment } from '#record/schema/assessment';
import { cautionsOf } from '#verdict/cautions';
import type { Caution } from '#verdict/verdict';
import type { Naming } from '../commands/bench-patches.ts';
import type { LiveReadout } from './live-readout.ts';

/** Which hazards does an action bring together with what is there? By the ids of the cautions. */
const RAISED_BY: Readonly<Record<string, readonly string[]>> = {
  heat: ['heat-near-cell', 'solvent'],
  dissolve: ['solvent'],
  pry: ['glass'],
  'release-clips': ['glass'],
  unplug: ['stored-charge'],
  desolder: ['stored-charge'],
  discharge: ['stored-charge', 'mains'],
};

/**
 * Which cautions does the state of the hazards call for before the next action? A harmed cell always; else what the action
 * brings together; the cell's own where the action touches a part that holds one. With figure and source.
 */
export const cautionsNow = (
  document: Assessment,
  { device }: LiveReadout,
  next: Naming | undefined,
): readonly Caution[] => {
  const all = cautionsOf({ assessment: document, device });
  const raised = new Set(['harmed-cell', ...(RAISED_BY[next?.do ?? ''] ?? [])]);
  const target = next?.target ?? '';
  const touched = new Set([target, ...(device.fasteners.get(target)?.between ?? [])]);
  const touchesCell = (where: readonly string[]): boolean => where.some((part) => touched.has(part));
  return all.filter(({ id: key, where }) => raised.has(key) || (key === 'lithium-cell' && touchesCell(where)));
};
