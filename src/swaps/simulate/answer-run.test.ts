import { describe, expect, test } from 'vitest';
import type { EffectCode, RunSetting } from '../model/swap-run.ts';
import { answerRun, type SimulatedDevice } from './answer-run.ts';
import type { HiddenTruth } from './hidden-truth.ts';
import { simulateRuns } from './simulate-runs.ts';

const fitted = (host: string, home: string, more: Partial<RunSetting> = {}): RunSetting => ({
  host,
  hostRevision: 'R1',
  part: 'camera',
  piece: { key: `specimen:${home}`, home, revision: 'R1', homeLock: 'none' },
  isOwn: host === home,
  handled: true,
  firmware: '1.0',
  calibrated: false,
  authorised: false,
  identityMoved: false,
  ready: true,
  settled: true,
  ...more,
});
const [AA, AB, BA] = [fitted('A', 'A'), fitted('A', 'B'), fitted('B', 'A')];
const speaker = (of: RunSetting): RunSetting => ({ ...of, part: 'speaker' });
const PAIRED: HiddenTruth = { explanation: 'pairing-reversible', code: 'E3' };
const DARK: HiddenTruth = { explanation: 'pairing-reversible', code: 'E6' };

/** Numbers in turn, the last again and again. */
const numbers = (...given: number[]) => {
  const left = [...given];
  return (): number => (left.length > 1 ? (left.shift() ?? 0) : (left[0] ?? 0.5));
};
const device = (truth: HiddenTruth, strays?: SimulatedDevice['strays']): SimulatedDevice => ({
  truths: new Map([['camera', truth]]),
  firmware: ['1.0', '1.1'],
  ...(strays ? { strays } : {}),
});
const shown = (of: SimulatedDevice, fits: readonly RunSetting[]): readonly (EffectCode | undefined)[] =>
  [
    ...simulateRuns(
      of,
      fits.map((one) => ({ fits: [one] })),
      numbers(0.5),
    ).values(),
  ]
    .flat()
    .map(({ effect }) => effect);

describe('each truth shows where its signature says', () => {
  test.each<[string, HiddenTruth, readonly RunSetting[], readonly EffectCode[]]>([
    ['accepted', { explanation: 'accepted', code: 'E5' }, [AA, AB], ['E0', 'E0']],
    ['a lock, until authorised', PAIRED, [AA, AB, { ...AB, authorised: true }, AA], ['E0', 'E3', 'E0', 'E0']],
    ['a latching lock', { explanation: 'pairing-latching', code: 'E5' }, [AB, AA, BA], ['E5', 'E7', 'E5']],
    ['a bad donor', { explanation: 'bad-donor', piece: 'specimen:B', code: 'E5' }, [AB, BA], ['E5', 'E0']],
    [
      'a mended bug',
      { explanation: 'firmware-bug', lastFirmware: '1.0', code: 'E2' },
      [AB, { ...AB, firmware: '1.1' }],
      ['E2', 'E0'],
    ],
    [
      'damage at the second handling',
      { explanation: 'handling-damage', damagedAt: { A: 2 }, code: 'E5' },
      [AA, AB, AA, BA],
      ['E0', 'E5', 'E5', 'E0'],
    ],
    [
      'a calibration',
      { explanation: 'missing-calibration', code: 'E4' },
      [AB, { ...AB, calibrated: true }],
      ['E4', 'E0'],
    ],
    ['a run misread', { explanation: 'test-error', misread: 2, code: 'E2' }, [AB, AB, AB], ['E0', 'E2', 'E0']],
  ])('%s', (...[, truth, fits, codes]) => {
    expect(shown(device(truth), fits)).toEqual(codes);
  });
});

describe('one run of several parts', () => {
  const question = { order: 1, fits: [AB, speaker(AB)], earlier: new Map() };

  test('a part that keeps the host from running hides the others', () => {
    const [camera, other] = answerRun(device(DARK), question, numbers(0.5));
    expect(camera).toMatchObject({ effect: 'E6', outcome: 'failed', attributed: true });
    expect(other).toEqual({ part: 'speaker', outcome: 'unseen', attributed: true });
  });

  test('where masking goes unnoticed the hidden part is taken down as clean', () => {
    const [, other] = answerRun(device(DARK, { masksUnnoticed: true }), question, numbers(0.5));
    expect(other).toMatchObject({ effect: 'E0', outcome: 'passed' });
  });

  test('a device that names no part shows the worst effect of the whole run', () => {
    const answers = answerRun(device(PAIRED), { ...question, isPooled: true }, numbers(0.5));
    expect(answers.map(({ effect, attributed }) => [effect, attributed])).toEqual([
      ['E3', false],
      ['E3', false],
    ]);
  });

  test('interacting parts fail only where both are foreign', () => {
    const accepted: HiddenTruth = { explanation: 'accepted', code: 'E0' };
    const strange = device(accepted, { interacting: ['camera', 'speaker'] });
    const codes = (fits: readonly RunSetting[]) =>
      answerRun(strange, { ...question, fits }, numbers(0.5)).map(({ effect }) => effect);
    expect(codes([AB, speaker(AB)])).toEqual(['E5', 'E5']);
    expect(codes([AB, speaker(AA)])).toEqual(['E0', 'E0']);
  });
});

test('flaky functions fail and tests are misread as often as said', () => {
  const accepted: HiddenTruth = { explanation: 'accepted', code: 'E0' };
  const ask = (strays: SimulatedDevice['strays'], ...given: number[]) =>
    answerRun(device(accepted, strays), { order: 1, fits: [AB], earlier: new Map() }, numbers(...given))[0]?.effect;
  expect(ask({ flaky: 0.1 }, 0.5, 0.09)).toBe('E5');
  expect(ask({ flaky: 0.1 }, 0.5, 0.11)).toBe('E0');
  expect(ask({ testError: 0.1 }, 0.5, 0.09)).toBe('E5');
  expect(ask({ testError: 0.1 }, 0.5, 0.11)).toBe('E0');
});

test('what the device says comes with its effect', () => {
  const [answer] = answerRun(device(PAIRED), { order: 1, fits: [AB], earlier: new Map() }, numbers(0.5));
  expect(answer?.notice).toMatchObject({ dismissible: false, returns: 'after every restart' });
});
