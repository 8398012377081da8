import type { Explanation } from '../model/explanation.ts';
import type { Suspicion } from '../model/suspicion.ts';
import { type Allowed, ANYTHING, PASSED, PASSED_OR_REDUCED, REDUCED, TROUBLED } from './allowed.ts';
import { type OrderedSetting, type PlacedRun, placeRuns } from './placed-run.ts';

/**
 * What may each run of a part show if a suspicion is true? One set of outcomes a run, in the order of the runs. `firmware` lists
 * the versions at hand, oldest first. The rules are the signature matrix of docs/method/swap-diagnosis.md, worked out from the
 * rival explanations; where circumstances are not recorded a rule allows everything rather than guess.
 */
export const predict = (
  suspicion: Suspicion,
  runs: readonly OrderedSetting[],
  firmware: readonly string[],
): readonly Allowed[] => placeRuns(runs).map((placed) => predictRun(suspicion, placed, firmware));

/** What may one run show if a suspicion is true, given what the runs before it left behind (`placeRuns`)? */
export const predictRun = (suspicion: Suspicion, placed: PlacedRun, firmware: readonly string[]): Allowed =>
  RULES[suspicion.explanation]({ suspicion, placed, firmware });

interface Look {
  readonly suspicion: Suspicion;
  readonly placed: PlacedRun;
  readonly firmware: readonly string[];
}

type Rule = (look: Look) => Allowed;

/** Nothing is the matter. */
const accepted: Rule = () => PASSED;

/** The fault goes where the piece goes. At home it may show from the start, or only once the piece has been out. */
const badDonor: Rule = ({ suspicion, placed: { run, crossed } }) => {
  if (run.piece.key !== suspicion.piece) return PASSED;
  return run.isOwn && !crossed ? ANYTHING : TROUBLED;
};

/** The fault stays with the host, whatever is fitted, from the run for which the place was mishandled. */
const handlingDamage: Rule = ({ suspicion, placed: { run } }) => {
  const from = suspicion.damagedFrom?.[run.host];
  return from !== undefined && run.order >= from ? TROUBLED : PASSED;
};

/**
 * By degree, and gone once calibrated. An authorised step may calibrate as it goes, and the own identity chip may carry the own
 * calibration values along: neither tells.
 */
const missingCalibration: Rule = ({ placed: { run } }) => {
  if (run.isOwn || run.calibrated) return PASSED;
  return run.authorised || run.identityMoved ? PASSED_OR_REDUCED : REDUCED;
};

/** Goes by the revision of the piece and by nothing else. */
const revisionMismatch: Rule = ({ placed: { run } }) => {
  if (run.isOwn) return PASSED;
  if (run.piece.revision === undefined || run.hostRevision === undefined) return ANYTHING;
  return run.piece.revision === run.hostRevision ? PASSED : TROUBLED;
};

/** Foreign pieces stumble over it up to its last version; own ones may, once they have been handled. */
const firmwareBug: Rule = ({ suspicion, placed, firmware }) => {
  const last = firmware.indexOf(suspicion.lastFirmware ?? '');
  const now = placed.run.firmware === undefined ? -1 : firmware.indexOf(placed.run.firmware);
  if (last < 0 || now < 0) return ANYTHING;
  return now <= last ? whileBugged(placed) : PASSED;
};

const whileBugged = ({ run, opened }: PlacedRun): Allowed => {
  if (!run.isOwn) return TROUBLED;
  return opened ? ANYTHING : PASSED;
};

/** As a bug of every version at hand: whatever is authorised, calibrated or moved, a foreign piece stumbles over it. */
const unfixedBug: Rule = ({ placed }) => whileBugged(placed);

/** Goes with a full charge cycle, a soak or a reset, as far as these were kept to. */
const gaugeOrCache: Rule = ({ placed: { run } }) => {
  if (run.settled === undefined) return ANYTHING;
  if (run.settled) return PASSED;
  return run.isOwn ? ANYTHING : TROUBLED;
};

/** Foreign pieces are refused until authorised; the own part is always taken. */
const pairingReversible: Rule = ({ placed }) => (placed.run.isOwn ? PASSED : whilePaired(placed));

const whilePaired = ({ run, authorisedBefore }: PlacedRun): Allowed => {
  if (run.authorised || run.identityMoved) return PASSED;
  return authorisedBefore ? ANYTHING : TROUBLED;
};

/** As above, and a foreign piece leaves its mark: the own part too is refused until authorised. */
const pairingLatching: Rule = ({ placed }) => {
  const { run, unauthorisedBefore, rededicated } = placed;
  if (!run.isOwn) return whilePaired(placed);
  if (run.authorised) return PASSED;
  if (unauthorisedBefore) return TROUBLED;
  return rededicated ? ANYTHING : PASSED;
};

/** Goes by what its home unit is, locked or reported lost; authorising does not help. */
const donorHomeLocked: Rule = ({ placed: { run } }) => {
  if (run.isOwn) return PASSED;
  if (run.piece.homeLock === undefined) return ANYTHING;
  return run.piece.homeLock === 'none' ? PASSED : TROUBLED;
};

/** A host open, not grounded or nearly empty may show anything. */
const hostNotReady: Rule = ({ placed: { run } }) => (run.ready === true ? PASSED : ANYTHING);

/** One run was misread as showing something; the rest is as it should be. */
const testError: Rule = ({ suspicion, placed: { run } }) => (run.order === suspicion.misread ? TROUBLED : PASSED);

const RULES: Readonly<Record<Explanation, Rule>> = {
  accepted,
  'bad-donor': badDonor,
  'handling-damage': handlingDamage,
  'missing-calibration': missingCalibration,
  'revision-mismatch': revisionMismatch,
  'firmware-bug': firmwareBug,
  'unfixed-bug': unfixedBug,
  'gauge-or-cache': gaugeOrCache,
  'pairing-reversible': pairingReversible,
  'pairing-latching': pairingLatching,
  'donor-home-locked': donorHomeLocked,
  'host-not-ready': hostNotReady,
  'test-error': testError,
};
