import type { Suspicion } from '../model/suspicion.ts';
import { type RunOrPlan, suspicionsOf } from '../signature/suspicions-of.ts';
import { type HiddenTruth, suspicionOf } from './hidden-truth.ts';

/** Are two suspicions the same form of the same explanation? */
export const isSameForm = (a: Suspicion, b: Suspicion): boolean => textOf(a) === textOf(b);

const textOf = ({ damagedFrom, explanation, piece, lastFirmware, misread }: Suspicion): string =>
  JSON.stringify([explanation, piece, lastFirmware, misread, Object.entries(damagedFrom ?? {}).sort()]);

/**
 * Did the runs of a part meet what is the matter with it? Not where the bad piece was never seen away from home, the mended bug was
 * never tried, the damage was never done: the part then did as an accepted one does in every run that was seen.
 */
export const isMet = (truth: HiddenTruth, runs: readonly RunOrPlan[], firmware: readonly string[]): boolean => {
  const real = suspicionOf(truth, runs);
  return suspicionsOf(runs, firmware).suspicions.some((suspicion) => isSameForm(suspicion, real));
};
