import type { SwapRun } from '../model/swap-run.ts';
import type { Conclusion } from './conclusion.ts';
import { GAP_CHECKS, type GapKind } from './gap-checks.ts';

/** One thing that leaves a verdict open, in words, with the runs it is about (ids). */
export interface Gap {
  readonly kind: GapKind;
  readonly words: string;
  readonly runs: readonly string[];
}

/** Which steps can be taken at this bench for a part? Undefined is not known. */
export interface Offered {
  readonly authorisation?: boolean;
  readonly calibration?: boolean;
}

/** What the gaps of a part are looked for in. */
export interface GapRequest {
  /** In their order, pools told apart. */
  readonly runs: readonly SwapRun[];
  readonly conclusion: Conclusion;
  /** Versions at hand, oldest first. */
  readonly firmware: readonly string[];
  readonly offered: Offered;
  readonly damagedAtOnce?: number;
}

/** What leaves the verdict on a part open, the gravest first? Every gap is a fact of the runs, whether or not the cause hangs on it. */
export const gapsOf = (request: GapRequest): readonly Gap[] =>
  (Object.keys(GAP_WORDS) as GapKind[]).flatMap((kind) => {
    const found = GAP_CHECKS[kind](request);
    return found === undefined ? [] : [{ kind, words: GAP_WORDS[kind], runs: found.map(({ id }) => id) }];
  });

/** How does each gap read? The gravest first. */
const GAP_WORDS: Readonly<Record<GapKind, string>> = {
  'no-explanation':
    'No single explanation agrees with every run: two causes at once, parts that fail only together, a function that comes and goes, or a run misread beside a cause. Repeat the runs that contradict each other.',
  'no-foreign-fit': 'No foreign piece was fitted and seen.',
  'no-refit-control':
    'Refit control missing in a host that had a foreign piece: damage in handling would look the same.',
  'no-swap-back': 'Own part not put back in a host that had a foreign piece: whether the effect stays is not known.',
  'one-specimen': 'One specimen only.',
  'one-direction': 'One direction only: no two specimens exchanged their parts.',
  'not-repeated': 'Not repeated: a foreign fit was made once on its firmware in its host.',
  'never-alone':
    'Never tried alone: every run with an effect had the same other foreign part in it, and two parts that fail only together would look the same.',
  'mixed-revisions': 'Mixed revisions: a piece has another revision than its host.',
  'revision-unknown': 'Revision of a piece or of its host not recorded.',
  'home-lock-unknown': 'Not known whether the home unit of a piece was locked to an account or reported lost.',
  'not-ready': 'Host open, not grounded or nearly empty in a run.',
  'readiness-unknown': 'Not recorded whether the host was closed, grounded and charged in a run.',
  'not-settled': 'Soak or reset not kept to in a run.',
  'settling-unknown': 'Not recorded whether soak and reset were kept to in a run.',
  'firmware-unknown': 'Firmware not recorded in a run.',
  'firmware-not-tried': 'No foreign piece tried on the newest firmware at hand.',
  'no-authorised-step':
    'No authorised step is offered at this bench: pairing and a bug that was not mended cannot be told apart.',
  'authorised-step-not-tried': 'Authorised step not tried: pairing and a bug that was not mended look the same.',
  'calibration-not-tried': 'Calibration not run: a missing calibration is not excluded.',
  hidden: 'Hidden by another part in a run, which is not read as clean.',
  'not-told-apart': 'A run with several foreign parts showed an effect, and it is not told which of them did it.',
  'damage-bounded': 'Handling damage was considered in fewer specimens at once than were handled.',
};
