import type { Odds } from './swap-problem.ts';

/** Whose figures are these? Shown beside every default. */
export const ODDS_STANDING = 'default of this tool, no source; to be edited';

/** What nobody can leave out of account whatever the part is. */
const COMMON: Odds = {
  'bad-donor': 0.02,
  'handling-damage': 0.01,
  'test-error': 0.005,
  'revision-mismatch': 0.02,
  'gauge-or-cache': 0.02,
  'donor-home-locked': 0.02,
  'host-not-ready': 0.01,
  'unfixed-bug': 0.01,
  'firmware-bug': 0.03,
};

/** Odds by class of role: parts that makers are known to tie are likely, plain ones are not. */
const BY_CLASS: Readonly<Record<string, Odds>> = {
  tied: { accepted: 0.3, 'pairing-reversible': 0.35, 'pairing-latching': 0.1, 'missing-calibration': 0.12 },
  calibrated: { accepted: 0.55, 'pairing-reversible': 0.1, 'pairing-latching': 0.02, 'missing-calibration': 0.2 },
  plain: { accepted: 0.9, 'pairing-reversible': 0.02, 'pairing-latching': 0.005, 'missing-calibration': 0.02 },
};

const CLASS_OF_ROLE: Readonly<Record<string, keyof typeof BY_CLASS>> = {
  battery: 'tied',
  display: 'tied',
  'front-camera': 'tied',
  'main-board': 'tied',
  'rear-camera': 'calibrated',
  sensor: 'calibrated',
  hinge: 'calibrated',
};

/**
 * How likely is each explanation for a part of this role when nobody said otherwise? Weights; every figure is this tool's default
 * without a source (`ODDS_STANDING`) and may be overridden one by one. A role that is not listed counts as plain.
 */
export const defaultOdds = (role: string | undefined, said: Odds = {}): Odds => ({
  ...COMMON,
  ...BY_CLASS[CLASS_OF_ROLE[role ?? ''] ?? 'plain'],
  ...said,
});
