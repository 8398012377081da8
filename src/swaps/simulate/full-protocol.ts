import type { RunSetting } from '../model/swap-run.ts';
import type { PlannedStart } from './simulate-runs.ts';

/** The firmware versions of the full protocol, oldest first. */
export const PROTOCOL_FIRMWARE: readonly string[] = ['1.0', '1.1'];
/** The two specimens of the full protocol. */
export const PROTOCOL_HOSTS: readonly string[] = ['A', 'B'];

type Step = readonly [host: string, home: string, changed?: Partial<RunSetting>];

const CROSS_AND_BACK: readonly Step[] = [
  ['A', 'B'],
  ['B', 'A'],
  ['A', 'A'],
  ['B', 'B'],
];

const STEPS: readonly Step[] = [
  ['A', 'A', { handled: false }],
  ['B', 'B', { handled: false }],
  ['A', 'A'],
  ['B', 'B'],
  ...CROSS_AND_BACK,
  ...CROSS_AND_BACK,
  ['A', 'B', { authorised: true }],
  ['A', 'A', { authorised: true }],
  ['B', 'A', { calibrated: true }],
  ['B', 'B', { authorised: true }],
  ...CROSS_AND_BACK.map(([host, home]): Step => [host, home, { firmware: '1.1' }]),
];

/**
 * Which starts does the whole protocol make, with nothing left out? Two specimens of one revision: baseline, refit control, cross both
 * ways and swap-back twice, the authorised step and the calibration, and all of the cross again on the next firmware; 20 starts a part
 * alone, or 20 for all parts together. Everything is recorded and as it should be.
 */
export const fullProtocol = (parts: readonly string[], isTogether: boolean): readonly PlannedStart[] => {
  const alone = parts.map((part) => STEPS.map((step) => settingOf(part, step)));
  if (!isTogether) return alone.flat().map((fit) => ({ fits: [fit] }));
  return STEPS.map((step) => ({ fits: parts.map((part) => settingOf(part, step)) }));
};

const settingOf = (part: string, [host, home, changed]: Step): RunSetting => ({
  host,
  hostRevision: 'R1',
  part,
  piece: { key: `specimen:${home}`, home, kind: 'used-genuine', revision: 'R1', homeLock: 'none' },
  isOwn: host === home,
  handled: true,
  firmware: '1.0',
  calibrated: false,
  authorised: false,
  identityMoved: false,
  ready: true,
  settled: true,
  ...changed,
});
