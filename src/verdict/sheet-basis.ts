import type { Explained } from '#quantity/explained';
import type { Assessment } from '#record/schema/assessment';
import type { IndexForm } from '#schemes/eu-2023-1669/index-figures';

import type { IndexBasis } from './index-bases.ts';

/** What does the public product sheet alone give as the declared basis? R and its six sub-scores as declared; no figure of a part is public. */
export const sheetBasis = (assessment: Assessment): IndexBasis | undefined => {
  void assessment;

  const none: { tree: Explained; figures: IndexForm } | undefined = undefined;
  return none;
};
