import type { Explanation } from './explanation.ts';

/**
 * One exact form of an explanation, precise enough to predict runs: which piece is bad, which host was damaged before which run,
 * up to which firmware the bug goes. An explanation is excluded when every suspicion of it is.
 */
export interface Suspicion {
  readonly explanation: Explanation;
  /** bad-donor: key of the bad piece. */
  readonly piece?: string;
  /** handling-damage: for each damaged host the order of the first run that shows it. */
  readonly damagedFrom?: Readonly<Record<string, number>>;
  /** firmware-bug: the last version that has it. */
  readonly lastFirmware?: string;
  /** test-error: the order of the one run that was misread. */
  readonly misread?: number;
}
