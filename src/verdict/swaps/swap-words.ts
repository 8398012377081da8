/** Findings of a part swap from worst to best; settled by the diagnosis of the record's swaps, open until then. */
export const SWAP_WORDS = [
  'lasting',
  'no-start',
  'refused',
  'reduced',
  'lasting-notice',
  'notice',
  'history-entry',
  'accepted',
] as const;
