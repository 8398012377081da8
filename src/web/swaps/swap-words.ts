import { EFFECT_WORDS } from '#swaps/diagnosis/effect-words';
import { ARM_NAMES } from '#swaps/model/fit-words';
import type { Arm, CheckResult, Effect, HomeLock } from './run-draft.ts';

/** What is the run of each stage of the protocol for? */
export const ARM_WHYS: Readonly<Record<Arm, string>> = {
  baseline: 'the specimen as it is: what every later run is held against.',
  'refit-control': 'the own part out and in again, handled like any fit: shows whether the hand does harm.',
  cross: 'a part that is not its own goes in: does the software take it?',
  'swap-back': 'the own part goes back: does the effect go, or does it stay?',
  replicate: 'the same once more: does it come again?',
  authorised: 'the part stays, and the step that makes it known is taken: does that clear the effect?',
  calibrated: 'the part stays and is calibrated, without any authorisation: does that clear the effect?',
  'identity-moved': 'the identity of the own part goes onto the foreign one: is it then taken?',
  firmware: 'the part stays and the specimen is updated: what is left of the effect?',
};

/** All stages in the order of the protocol. */
export const ARMS = Object.keys(ARM_NAMES) as readonly Arm[];

/** How is the lock of the unit called that a piece came from? */
export const LOCK_WORDS: Readonly<Record<HomeLock, string>> = {
  unknown: 'not known',
  none: 'not locked',
  locked: 'locked to an account',
  lost: 'reported lost',
};

/** How can a function come out? */
export const CHECK_WORDS: Readonly<Record<CheckResult, string>> = {
  pass: 'pass',
  fail: 'fail',
  reduced: 'reduced',
  'not-tested': 'not tested',
};

/** The effect scale, from no trace on. */
export const EFFECTS = Object.keys(EFFECT_WORDS) as readonly Effect[];

/** What does the fitted piece do, by the code? A sentence without its subject. */
export const effectLine = (effect: Effect): string => `${effect}: ${EFFECT_WORDS[effect]}`;
