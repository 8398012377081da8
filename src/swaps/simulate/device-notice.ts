import type { EffectCode } from '../model/swap-run.ts';

/** What a simulated device says of a part, as a run sheet takes it down. */
export interface DeviceNotice {
  readonly wording: string;
  readonly where: string;
  readonly dismissible: boolean;
  readonly returns: string;
}

const NOTICES: Readonly<Partial<Record<EffectCode, DeviceNotice>>> = {
  E1: {
    wording: 'This part was changed.',
    where: 'repair history in the settings',
    dismissible: true,
    returns: 'it stays in the history',
  },
  E2: { wording: 'This part needs to be set up.', where: 'lock screen', dismissible: true, returns: 'not again' },
  E3: {
    wording: 'This part is not known to this device.',
    where: 'lock screen',
    dismissible: false,
    returns: 'after every restart',
  },
  E5: {
    wording: 'This part cannot be used.',
    where: 'where the function is called up',
    dismissible: true,
    returns: 'each time the function is called up',
  },
};

/** What does a simulated device say with an effect? Invented wording; undefined where it says nothing. */
export const noticeOf = (code: EffectCode): DeviceNotice | undefined => NOTICES[code];
