import { expect, test } from 'vitest';
import { seededNumbers } from '#quantity/seeded-numbers';
import { diagnoseAll } from '#swaps/diagnosis/diagnose';
import { fullProtocol, PROTOCOL_FIRMWARE } from '#swaps/simulate/full-protocol';
import type { HiddenTruth } from '#swaps/simulate/hidden-truth';
import { simulateRuns } from '#swaps/simulate/simulate-runs';

const ACCEPTED: HiddenTruth = { explanation: 'accepted', code: 'E5' };
const PAIR = ['camera', 'speaker'] as const;
const DEVICE = {
  truths: new Map(PAIR.map((part) => [part, ACCEPTED])),
  firmware: PROTOCOL_FIRMWARE,
  strays: { interacting: PAIR },
};

const found = (isTogether: boolean) => {
  const runs = simulateRuns(DEVICE, fullProtocol([...PAIR, 'port'], isTogether), seededNumbers(1));
  return [...diagnoseAll(runs, { firmware: PROTOCOL_FIRMWARE }).values()].map(({ part, decided, gaps }) => ({
    part,
    decided,
    isFlagged: gaps.some(({ kind }) => kind === 'never-alone'),
  }));
};

test('two parts that fail only together are decided wrongly where they are never tried alone, and that gap is named', () => {
  expect(found(true)).toEqual([
    { part: 'camera', decided: 'unfixed-bug', isFlagged: true },
    { part: 'speaker', decided: 'unfixed-bug', isFlagged: true },
    { part: 'port', decided: 'accepted', isFlagged: false },
  ]);
});

test('tried each alone they are what they are', () => {
  expect(found(false).map(({ decided, isFlagged }) => [decided, isFlagged])).toEqual([
    ['accepted', false],
    ['accepted', false],
    ['accepted', false],
  ]);
});
