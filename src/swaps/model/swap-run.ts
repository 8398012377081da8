/** Where did the part come from that was fitted? */
export type DonorKind =
  | 'new-unit'
  | 'makers-spare'
  | 'used-genuine'
  | 'salvaged-locked-unit'
  | 'compatible'
  | 'refurbished';

/** One physical piece that can be fitted at a place: the own part of a specimen, or a part from elsewhere. */
export interface Piece {
  /** The same key is the same physical piece: `specimen:a` for the own part of specimen `a`, else the donor's own id. */
  readonly key: string;
  /** The specimen whose own part it is; undefined for a spare that never had one on this bench. */
  readonly home?: string;
  readonly kind?: DonorKind;
  /** Part revision as marked on it; undefined is not read. */
  readonly revision?: string;
  /** Was its home unit locked to an account or reported lost? Undefined is not known. */
  readonly homeLock?: 'none' | 'locked' | 'lost';
}

/**
 * What did a run show of one part? `passed`: as with its own part, no trace (E0). `reduced`: by degree (E4). `failed`: any other
 * effect (E1 to E3, E5 to E7). `unseen`: hidden by what another part did in the same run, never read as clean.
 */
export type Outcome = 'passed' | 'reduced' | 'failed' | 'unseen';

/** The code of an effect, bench scale E0 (no trace) to E7 (own part no longer accepted). */
export type EffectCode = 'E0' | 'E1' | 'E2' | 'E3' | 'E4' | 'E5' | 'E6' | 'E7';

/** Which stage of the protocol is a run for? */
export type Arm =
  | 'baseline'
  | 'refit-control'
  | 'cross'
  | 'swap-back'
  | 'replicate'
  | 'authorised'
  | 'calibrated'
  | 'identity-moved'
  | 'firmware';

/** The circumstances of one run, as far as they are known: what a prediction depends on. */
export interface RunSetting {
  /** The specimen the part was fitted into. */
  readonly host: string;
  readonly hostRevision?: string;
  /** The place, as a part id. */
  readonly part: string;
  readonly piece: Piece;
  readonly isOwn: boolean;
  /** Was the place opened and the part handled for this run? A baseline of an unopened specimen was not. */
  readonly handled: boolean;
  /** Firmware version; undefined is not recorded. */
  readonly firmware?: string;
  /** Calibrated since this piece was fitted, by a step that needs no authorisation. */
  readonly calibrated: boolean;
  /** Authorised (paired) for this host since this piece was fitted. */
  readonly authorised: boolean;
  /** The host's own identity chip or flex was moved onto the foreign piece. */
  readonly identityMoved: boolean;
  /** Host closed, grounded and charged enough; undefined is not recorded. */
  readonly ready?: boolean;
  /** The soak was waited for and the gauge or cache reset as laid down; undefined is not recorded. */
  readonly settled?: boolean;
}

/** One run as the diagnosis looks at it: its setting and what it showed. */
export interface SwapRun extends RunSetting {
  /** Id of the record it came from. */
  readonly id: string;
  /** Runs in the order in which they were made: fits made in one run have one number. */
  readonly order: number;
  readonly arm?: Arm;
  readonly effect?: EffectCode;
  readonly outcome: Outcome;
  /**
   * Other parts fitted in the same run, own or foreign, by part id. Where `attributed` is false the outcome is that of the whole run:
   * when it failed, one of them or several did it.
   */
  readonly together: readonly string[];
  /** Those of them that were foreign; undefined is not known, and any may have been. */
  readonly foreignBeside?: readonly string[];
  readonly attributed: boolean;
  readonly evidence: readonly string[];
}
