import type { RunSetting } from '../../src/swaps/model/swap-run.ts';
import type { SwapProblem } from '../../src/swaps/plan/swap-problem.ts';
import { type BenchStart, settingOf } from './work-device.ts';

interface Step {
  readonly host: 'A' | 'B';
  readonly home: 'A' | 'B';
  readonly changed?: Partial<RunSetting>;
  /** Hosts opened for it. A cross opens both once, for both directions; so does a swap-back. */
  readonly opened: number;
  readonly isUpdate?: boolean;
}

const CROSS_AND_BACK: readonly Step[] = [
  { host: 'A', home: 'B', opened: 2 },
  { host: 'B', home: 'A', opened: 0 },
  { host: 'A', home: 'A', opened: 2 },
  { host: 'B', home: 'B', opened: 0 },
];

const onNewest = (step: Step, index: number): Step => ({
  ...step,
  changed: { firmware: '1.1' },
  isUpdate: index < 2,
});

/**
 * The fixed protocol with nothing left out: baseline, refit control, cross both ways and swap-back twice, the authorised step and the
 * calibration, then the update and cross and swap-back again.
 */
const STEPS: readonly Step[] = [
  { host: 'A', home: 'A', changed: { handled: false }, opened: 0 },
  { host: 'B', home: 'B', changed: { handled: false }, opened: 0 },
  { host: 'A', home: 'A', opened: 1 },
  { host: 'B', home: 'B', opened: 1 },
  ...CROSS_AND_BACK,
  ...CROSS_AND_BACK,
  { host: 'A', home: 'B', changed: { authorised: true }, opened: 2 },
  { host: 'B', home: 'A', changed: { calibrated: true }, opened: 0 },
  { host: 'A', home: 'A', changed: { authorised: true }, opened: 2 },
  { host: 'B', home: 'B', changed: { authorised: true }, opened: 0 },
  ...CROSS_AND_BACK.map(onNewest),
];

/** The starts of the fixed protocol: part by part, or each for all parts at once. The update is paid once a host. */
export const fullProtocolStarts = (problem: SwapProblem, isTogether: boolean): readonly BenchStart[] => {
  const ids = problem.parts.map(({ id }) => id);
  if (isTogether) return STEPS.map((step) => startOf(ids, step));
  const [older, newer] = [STEPS.slice(0, -CROSS_AND_BACK.length), STEPS.slice(-CROSS_AND_BACK.length)];
  const all = [older, newer].flatMap((steps) =>
    ids.flatMap((id, index) => steps.map((step) => startOf([id], step, index))),
  );
  return all;
};

const startOf = (parts: readonly string[], { host, home, changed, opened, isUpdate }: Step, place = 0): BenchStart => ({
  fits: parts.map((part) => ({ ...settingOf(host, part, home), ...changed })),
  opened: ['A', 'B'].slice(0, opened),
  isUpdate: isUpdate === true && place === 0,
});
