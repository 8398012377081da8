import { describe, expect, test } from 'vitest';
import { type RunLine, swapRuns } from '../../../test/records/swap-runs.ts';
import type { Suspicion } from '../model/suspicion.ts';
import { predict } from './predict.ts';

const LETTERS: Readonly<Record<string, string>> = {
  passed: 'P',
  reduced: 'D',
  'reduced,failed': 'F',
  'passed,reduced': 'd',
  'passed,reduced,failed': '*',
};
const FIRMWARE = ['5.0.0', '5.0.1', '5.1.0'];
const letters = (suspicion: Suspicion, lines: readonly RunLine[]): string =>
  predict(suspicion, swapRuns(lines), FIRMWARE)
    .map((allowed) => LETTERS[allowed.join()])
    .join('');
const seen = (...lines: readonly (readonly [RunLine[0], RunLine[2]?])[]): readonly RunLine[] =>
  lines.map(([fit, otherwise = {}]): RunLine => [fit, 'E0', otherwise]);

describe('what is not recorded allows everything', () => {
  test.each<[string, Suspicion, RunLine[2]]>([
    ['revision of the piece', { explanation: 'revision-mismatch' }, { piece: { key: 'x' } }],
    ['revision of the host', { explanation: 'revision-mismatch' }, { hostRevision: undefined }],
    ['firmware', { explanation: 'firmware-bug', lastFirmware: '5.0.0' }, { firmware: undefined }],
    ['a firmware that nobody listed', { explanation: 'firmware-bug', lastFirmware: '5.0.0' }, { firmware: '4.9' }],
    ['settling', { explanation: 'gauge-or-cache' }, { settled: undefined }],
    ['home lock', { explanation: 'donor-home-locked' }, { piece: { key: 'x' } }],
    ['readiness', { explanation: 'host-not-ready' }, { ready: undefined }],
  ])('%s', (_, suspicion, otherwise) => {
    expect(letters(suspicion, seen(['A+b', otherwise]))).toBe('*');
  });
});

describe('what earlier runs left behind', () => {
  const authorised = { authorised: true };

  test('a latching host refuses its own part from the first unauthorised foreign piece until something is authorised', () => {
    const lines = seen(['A+a'], ['A+b'], ['A+a'], ['B+b'], ['A+a', authorised], ['A+a']);
    expect(letters({ explanation: 'pairing-latching' }, lines)).toBe('PFFPPP');
  });

  test('a piece that carries the own identity leaves no mark', () => {
    const lines = seen(['A+b', { identityMoved: true }], ['A+a']);
    expect(letters({ explanation: 'pairing-latching' }, lines)).toBe('PP');
  });

  test('after a foreign piece was authorised, the own part of a latching host may be refused or taken', () => {
    const lines = seen(['A+b', authorised], ['A+a']);
    expect(letters({ explanation: 'pairing-latching' }, lines)).toBe('P*');
    expect(letters({ explanation: 'pairing-reversible' }, lines)).toBe('PP');
  });

  test('a piece authorised for the host once may be taken there again, another one is refused', () => {
    const lines = seen(['A+b', authorised], ['A+b'], ['B+a'], ['A+c']);
    expect(letters({ explanation: 'pairing-reversible' }, lines)).toBe('P*FF');
  });

  test('a bad piece may show at home before it was out, and must afterwards', () => {
    const lines = seen(['B+b'], ['A+b'], ['B+b'], ['A+a'], ['B+a']);
    expect(letters({ explanation: 'bad-donor', piece: 'specimen:B' }, lines)).toBe('*FFPP');
  });

  test('a bug may hit own parts once they were handled, and no more on the version that mends it', () => {
    const unopened = { arm: 'baseline', firmware: '5.0.0' } as const;
    const old = { firmware: '5.0.0' };
    const lines = seen(['A+a', unopened], ['A+a', old], ['A+b', old], ['A+a'], ['A+b'], ['A+b', { firmware: '5.1.0' }]);
    expect(letters({ explanation: 'firmware-bug', lastFirmware: '5.0.0' }, lines)).toBe('P*FPPP');
    expect(letters({ explanation: 'firmware-bug', lastFirmware: '5.0.1' }, lines)).toBe('P*F*FP');
    expect(letters({ explanation: 'unfixed-bug' }, lines)).toBe('P*F*FF');
  });

  test('damage stays with each host from its own run on', () => {
    const lines = seen(['A+a'], ['B+b'], ['A+b'], ['B+a'], ['A+a'], ['B+b']);
    expect(letters({ explanation: 'handling-damage', damagedFrom: { A: 3, B: 6 } }, lines)).toBe('PPFPFF');
  });
});

test('runs may be given in any order', () => {
  const runs = swapRuns(seen(['A+a'], ['A+b'], ['A+a']));
  const turned = predict({ explanation: 'pairing-latching' }, [...runs].reverse(), FIRMWARE);
  expect(turned).toEqual(predict({ explanation: 'pairing-latching' }, runs, FIRMWARE));
});
