import type { SwapProblem } from '#swaps/plan/swap-problem';

/** A bench of swaps with two specimens on one firmware, no donors, and these parts; changed as said. */
export const twoHosts = (parts: SwapProblem['parts'], changes: Partial<SwapProblem> = {}): SwapProblem => ({
  parts,
  layers: { back: { openSeconds: 120, closeSeconds: 120 } },
  hosts: ['A', 'B'].map((id) => ({ id, firmware: '5.0.1', homeLock: 'none', revisions: { camera: 'R1' } })),
  donors: [],
  firmware: ['5.0.1'],
  startSeconds: 60,
  soakSeconds: 60,
  updateSeconds: 600,
  refitControl: false,
  hides: 0,
  ...changes,
});
