import type { Swap } from '#record/schema/assessment';

/** Stage of the protocol. */
export type Arm = NonNullable<Swap['arm']>;
/** What the software made of a fitted part. */
export type Effect = NonNullable<Swap['effect']>;
/** Where a piece came from that is no own part. */
export type DonorKind = NonNullable<Swap['donor']>['kind'];
/** Was the unit a piece came from locked or reported lost? */
export type HomeLock = NonNullable<NonNullable<Swap['donor']>['homeLock']>;
/** How one function of the list came out. */
export type CheckResult = NonNullable<Swap['checks']>[string];
/** Yes, no, or nobody said. */
export type Said = 'yes' | 'no' | '';

/** Which piece goes in: the own part, that of another specimen, one listed at hand, or one from elsewhere. */
export type PieceChoice = 'own' | `specimen:${string}` | `donor:${string}` | 'other';

/** What is said of a piece that goes in and is not the own part. */
export interface PieceDraft {
  readonly choice: PieceChoice;
  readonly kind: DonorKind;
  /** Which physical piece, where it came from elsewhere: the same word is the same piece. */
  readonly item: string;
  readonly revision: string;
  readonly homeLock: HomeLock;
}

/** What the software says of a fitted part. */
export interface NoticeDraft {
  readonly wording: string;
  readonly where: string;
  readonly about: '' | 'identity' | 'condition' | 'other';
  readonly misleading: Said;
  readonly dismissible: Said;
  readonly returns: string;
}

/** A function measured with the own and with the fitted part. */
export interface MeasuredDraft {
  readonly of: string;
  readonly before: string;
  readonly after: string;
}

/** What a step asks for, and who may take it. */
export interface StepDraft {
  readonly by: '' | 'owner' | 'professional' | 'makers-network';
  readonly network: Said;
  readonly account: Said;
  readonly cost: string;
}

/** The step by which a part is made known to the software. */
export interface PairingDraft extends StepDraft {
  readonly remote: '' | 'none' | 'notification' | 'authorisation';
}

/** A function of the list that the person added: its key in the record and its words. */
export interface OwnCheck {
  readonly key: string;
  readonly name: string;
}

/** One part looked at in a run, as it stands on the sheet. Texts are as typed; empty is not said. */
export interface FitDraft {
  readonly part: string;
  readonly arm: Arm | '';
  readonly piece: PieceDraft;
  readonly checks: Readonly<Record<string, CheckResult>>;
  readonly addedChecks: readonly OwnCheck[];
  readonly leftOutChecks: readonly string[];
  readonly effect: Effect | '';
  /** Several foreign parts were fitted, and it is not told which of them did it. */
  readonly isOfRun: boolean;
  /** Another part hid what this one did. */
  readonly masked: boolean;
  readonly calibrated: boolean;
  readonly identityMoved: boolean;
  readonly pairing: PairingDraft;
  readonly calibration: StepDraft;
  readonly notice: NoticeDraft;
  readonly measured: readonly MeasuredDraft[];
  readonly starts: { readonly tried: string; readonly failed: string; readonly after: string };
  readonly note: string;
  /** Does the piece stay where it sits, as the plan has it? Missing where nobody planned it. */
  readonly stays?: boolean;
  /** The fit on record that this one takes the place of. */
  readonly corrects?: string;
}

/** One run as it stands on the sheet: one start of one specimen, with what holds for all its fits. */
export interface RunDraft {
  readonly run: number;
  readonly host: string;
  readonly firmware: string;
  /** RFC 3339; empty until the start was marked. */
  readonly on: string;
  readonly account: string;
  readonly network: Said;
  readonly charge: string;
  readonly closed: Said;
  readonly grounded: Said;
  readonly soak: string;
  readonly settled: Said;
  readonly operator: string;
  readonly session: string;
  /** Seconds in the session. */
  readonly at: string;
  readonly evidence: readonly string[];
  readonly fits: readonly FitDraft[];
}

/** A piece of which nothing is said but that it is the own part. */
export const OWN_PIECE: PieceDraft = {
  choice: 'own',
  kind: 'used-genuine',
  item: '',
  revision: '',
  homeLock: 'unknown',
};

const NO_NOTICE: NoticeDraft = { wording: '', where: '', about: '', misleading: '', dismissible: '', returns: '' };
const NO_STEP: StepDraft = { by: '', network: '', account: '', cost: '' };

/** A fit of a part of which nothing is said yet. */
export const newFit = (part: string): FitDraft => ({
  part,
  arm: '',
  piece: OWN_PIECE,
  checks: {},
  addedChecks: [],
  leftOutChecks: [],
  effect: '',
  isOfRun: false,
  masked: false,
  calibrated: false,
  identityMoved: false,
  pairing: { ...NO_STEP, remote: '' },
  calibration: NO_STEP,
  notice: NO_NOTICE,
  measured: [],
  starts: { tried: '', failed: '', after: '' },
  note: '',
});

/** A run of which nothing is said but its number and its specimen. */
export const newRun = (run: number, host: string): RunDraft => ({
  run,
  host,
  firmware: '',
  on: '',
  account: '',
  network: '',
  charge: '',
  closed: '',
  grounded: '',
  soak: '',
  settled: '',
  operator: '',
  session: '',
  at: '',
  evidence: [],
  fits: [],
});

/** Does the piece come from elsewhere than the host itself? */
export const isForeign = ({ piece }: FitDraft): boolean => piece.choice !== 'own';
