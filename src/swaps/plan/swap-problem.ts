import type { Explanation } from '../model/explanation.ts';
import { ownPieceKey } from '../model/piece-of.ts';
import type { DonorKind, Piece } from '../model/swap-run.ts';

/**
 * How likely is each explanation of a part beforehand? Weights, not necessarily of sum 1; an explanation without one counts 0 and
 * still has to be excluded. `handling-damage` is the chance per handled run and `test-error` the chance per run, beside a part that
 * is accepted; `bad-donor` is a weight per piece, `firmware-bug` is shared by the versions it may end with.
 */
export type Odds = Readonly<Partial<Record<Explanation, number>>>;

/** What it costs to get through one layer of a host, and to shut it again. */
export interface LayerCost {
  readonly openSeconds: number;
  readonly closeSeconds: number;
}

/** A part to be tried: how likely what is, what lies above it, what handling it takes and what its maker offers. */
export interface PlannedPart {
  readonly id: string;
  readonly odds: Odds;
  /** Ids of the layers to be opened to reach it, outermost first; parts share layers. */
  readonly layers: readonly string[];
  /** Taking out what is fitted and fitting another piece [s]. */
  readonly fitSeconds: number;
  /** Going through its function list once [s]. */
  readonly checkSeconds: number;
  /** An authorised pairing step offered for it takes so long [s]; undefined is that none is offered to the assessor. */
  readonly authoriseSeconds?: number;
  /** A calibration that needs no authorisation [s]; undefined is that none is offered. */
  readonly calibrateSeconds?: number;
  /** Moving the own identity chip or flex onto the foreign piece [s]; undefined is that it cannot be done. */
  readonly identitySeconds?: number;
  /**
   * Matings left before the first run, rated ones less those of the teardown sessions: by host id for the connector in the host and by
   * piece key for the one on the piece. Without an entry there is no known limit.
   */
  readonly matings?: Readonly<Record<string, number>>;
}

/** A specimen that parts are fitted into. */
export interface PlannedHost {
  readonly id: string;
  /** Part revision by part id, as marked on its own parts; undefined is not read. */
  readonly revisions?: Readonly<Record<string, string>>;
  /** Firmware it has before the first run; undefined is not recorded. */
  readonly firmware?: string;
  /** Locked to an account or reported lost? Undefined is not known. */
  readonly homeLock?: 'none' | 'locked' | 'lost';
}

/** A piece at hand that is not the own part of a host. */
export interface PlannedDonor {
  readonly id: string;
  readonly part: string;
  /** The specimen whose own part it is; undefined where it came from elsewhere. */
  readonly home?: string;
  readonly kind?: DonorKind;
  readonly revision?: string;
  readonly homeLock?: 'none' | 'locked' | 'lost';
}

/** What is to be found out at the bench, with what, at what cost. */
export interface SwapProblem {
  readonly parts: readonly PlannedPart[];
  readonly layers: Readonly<Record<string, LayerCost>>;
  /** In the order in which they may be used up: the first is put at risk first. */
  readonly hosts: readonly PlannedHost[];
  readonly donors: readonly PlannedDonor[];
  /** Firmware versions at hand, oldest first. A host is never taken back to an older one. */
  readonly firmware: readonly string[];
  readonly startSeconds: number;
  readonly soakSeconds: number;
  /** One update of one host to a newer version [s]. */
  readonly updateSeconds: number;
  /**
   * Is the own part taken out, put back and seen in a host before that host gets its first foreign piece? Without it an own part that
   * is refused later may as well have been damaged in handling.
   */
  readonly refitControl: boolean;
  /** Chance that a foreign piece which fails stops the whole device, so that nothing else in that run is seen. */
  readonly hides: number;
  /** Bench minutes available; undefined is no limit. */
  readonly minutes?: number;
}

/** Which piece is the own part of a host? */
export const ownPiece = (host: PlannedHost, part: string): Piece => ({
  key: ownPieceKey(host.id),
  home: host.id,
  ...(host.revisions?.[part] === undefined ? {} : { revision: host.revisions[part] }),
  ...(host.homeLock === undefined ? {} : { homeLock: host.homeLock }),
});

/** Which piece is a donor at hand? Its key is the one that the runs know it by. */
export const donorPiece = (donor: PlannedDonor): Piece => ({
  key: donor.home === undefined ? donor.id : ownPieceKey(donor.home),
  ...(donor.home === undefined ? {} : { home: donor.home }),
  ...(donor.kind === undefined ? {} : { kind: donor.kind }),
  ...(donor.revision === undefined ? {} : { revision: donor.revision }),
  ...(donor.homeLock === undefined ? {} : { homeLock: donor.homeLock }),
});
