/**
 * Why may a foreign part behave otherwise than the own one? The rival explanations of a swap, one of which holds of a part at a
 * time (handling damage may hit several hosts). `accepted` is that nothing is the matter. Derived from the effects that laws on
 * part pairing name (docs/method/swap-diagnosis.md); no standard lists them.
 */
export const EXPLANATIONS = [
  'accepted',
  'bad-donor',
  'handling-damage',
  'missing-calibration',
  'revision-mismatch',
  'firmware-bug',
  'unfixed-bug',
  'gauge-or-cache',
  'pairing-reversible',
  'pairing-latching',
  'donor-home-locked',
  'host-not-ready',
  'test-error',
] as const;
