import type { EffectCode } from '../model/swap-run.ts';

/** What does a foreign piece do, by the code of the effect? The rest of a sentence that begins with "a foreign piece". */
export const EFFECT_WORDS: Readonly<Record<EffectCode, string>> = {
  E0: 'works and leaves no trace',
  E1: 'works, and an entry in the repair history says so',
  E2: 'works, with a notice that can be put away at once',
  E3: 'works, with a notice that stays or comes again',
  E4: 'works with less function or performance',
  E5: 'is refused while the rest of the device runs',
  E6: 'keeps the device from starting or running',
  E7: 'leaves its mark: the own part is no longer taken',
};
