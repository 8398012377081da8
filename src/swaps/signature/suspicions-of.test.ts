import { describe, expect, test } from 'vitest';
import { fullProtocol, type RunLine, swapRuns } from '../../../test/records/swap-runs.ts';
import type { Explanation } from '../model/explanation.ts';
import { suspicionsOf } from './suspicions-of.ts';

const FIRMWARE = ['5.0.0', '5.0.1', '5.1.0'];
const of = (lines: readonly RunLine[], explanation: Explanation) =>
  suspicionsOf(swapRuns(lines), FIRMWARE).suspicions.filter((suspicion) => suspicion.explanation === explanation);
const PAIRED = fullProtocol('E5');
const withAll = (otherwise: RunLine[2]): readonly RunLine[] =>
  PAIRED.map(([fit, effect, more]): RunLine => [fit, effect, { ...more, ...otherwise }]);

describe('explanations by a circumstance do not arise', () => {
  const CIRCUMSTANCES = ['revision-mismatch', 'gauge-or-cache', 'donor-home-locked', 'host-not-ready'];

  test('where every run is known to be free of it', () => {
    expect(suspicionsOf(swapRuns(PAIRED), FIRMWARE).moot).toEqual(CIRCUMSTANCES);
  });

  test('where no run showed anything to explain, whatever is not recorded', () => {
    const runs = swapRuns([['A+b', 'E0', { ready: undefined, settled: undefined, hostRevision: undefined }]]);
    expect(suspicionsOf(runs, FIRMWARE).moot).toEqual(CIRCUMSTANCES);
  });

  test.each<[Explanation, RunLine[2]]>([
    ['revision-mismatch', { hostRevision: 'R2' }],
    ['gauge-or-cache', { settled: undefined }],
    ['host-not-ready', { ready: false }],
  ])('but %s does where it may explain an effect', (explanation, otherwise) => {
    expect(suspicionsOf(swapRuns(withAll(otherwise)), FIRMWARE).moot).not.toContain(explanation);
    expect(of(withAll(otherwise), explanation)).toEqual([{ explanation }]);
  });
});

describe('exact forms', () => {
  test('pieces that were seen away from home, or that did not pass at home', () => {
    expect(
      of(
        [
          ['A+a', 'E0'],
          ['B+b', 'E0'],
          ['A+b', 'E0'],
          ['A+s', undefined],
        ],
        'bad-donor',
      ),
    ).toEqual([{ explanation: 'bad-donor', piece: 'specimen:B' }]);
    expect(of([['A+a', 'E5']], 'bad-donor')).toEqual([{ explanation: 'bad-donor', piece: 'specimen:A' }]);
  });

  test('bugs that a version at hand mends, from the oldest version met on', () => {
    const last = (lines: readonly RunLine[]) => of(lines, 'firmware-bug').map(({ lastFirmware }) => lastFirmware);
    expect(last(PAIRED)).toEqual(['5.0.1']);
    expect(last(withAll({ firmware: '5.0.0' }))).toEqual(['5.0.0', '5.0.1']);
    expect(last(withAll({ firmware: '5.1.0' }))).toEqual([]);
    expect(last([['A+a', 'E0', { firmware: '5.0.0' }]])).toEqual([]);
  });

  test('damage only from handled runs on, in each host and in both', () => {
    const lines: readonly RunLine[] = [
      ['A+a', 'E0', { arm: 'baseline' }],
      ['A+a', 'E0'],
      ['A+b', 'E0'],
      ['B+a', 'E0'],
    ];
    expect(of(lines, 'handling-damage').map(({ damagedFrom }) => damagedFrom)).toEqual([
      { A: 2 },
      { A: 3 },
      { B: 4 },
      { A: 2, B: 4 },
      { A: 3, B: 4 },
    ]);
  });

  test('they stay few: with many handled runs, fewer hosts at once, and that is said', () => {
    const many = ['A', 'B', 'C', 'D'].flatMap((host) => Array.from({ length: 20 }, (): RunLine => [`${host}+s`, 'E0']));
    const { suspicions, damagedAtOnce } = suspicionsOf(swapRuns(many), FIRMWARE);
    expect(damagedAtOnce).toBe(2);
    expect(suspicions.filter(({ explanation }) => explanation === 'handling-damage')).toHaveLength(4 * 20 + 6 * 400);
    expect(suspicionsOf(swapRuns(PAIRED), FIRMWARE).damagedAtOnce).toBeUndefined();
  });
});

test('a planned run counts as one that may show anything', () => {
  const planned = swapRuns([['A+b', 'E0', { settled: false }]]).map(({ outcome: _, ...run }) => run);
  expect(suspicionsOf(planned, FIRMWARE).moot).not.toContain('gauge-or-cache');
});
