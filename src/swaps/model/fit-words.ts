import type { Arm, DonorKind } from './swap-run.ts';

/** How is each stage of the protocol called? In the order of the protocol; screen, report and command line use these words. */
export const ARM_NAMES: Readonly<Record<Arm, string>> = {
  baseline: 'baseline',
  'refit-control': 'refit control',
  cross: 'cross',
  'swap-back': 'swap-back',
  replicate: 'replicate',
  authorised: 'authorised step',
  calibrated: 'calibration',
  'identity-moved': 'own identity moved',
  firmware: 'newer firmware',
};

/** How is each origin of a piece called? */
export const DONOR_NAMES: Readonly<Record<DonorKind, string>> = {
  'new-unit': 'out of a new unit',
  'makers-spare': "maker's spare",
  'used-genuine': 'used genuine',
  'salvaged-locked-unit': 'out of a locked unit',
  compatible: 'compatible',
  refurbished: 'refurbished',
};
