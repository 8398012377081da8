import { expect, test } from 'vitest';
import { routeSource } from '#routes/problem/route-source';
import { smallRecord } from '../../../../test/records/small-record.ts';
import { resolveInterpretations } from '../interpretations.ts';
import { pairingFinding, type RemoteNeeds } from './pairing.ts';

const { interpretations: readings } = resolveInterpretations({});

const pairing = (
  part: Readonly<Record<string, unknown>>,
  settled?: Omit<RemoteNeeds, 'evidence'>,
  chosen: Partial<typeof readings> = {},
) => {
  const record = smallRecord({ parts: { cell: { name: 'Cell', role: 'battery', evidence: ['card'], ...part } } });
  const remote = settled && new Map([['cell', { ...settled, evidence: ['swaps/w4'] }]]);
  return pairingFinding({ ...routeSource(record), ...(remote ? { remote } : {}) }, 'cell', { ...readings, ...chosen });
};

test('swaps that settle both remote actions add five steps for each, with the runs as evidence (Annex IV point 5)', () => {
  expect(pairing({}, { remoteNotification: true, remoteAuthorisation: true })).toEqual({
    state: 'known',
    value: 10,
    evidence: ['swaps/w4'],
  });
  expect(pairing({}, { remoteNotification: false, remoteAuthorisation: true })).toMatchObject({ value: 5 });
  expect(pairing({}, { remoteNotification: false, remoteAuthorisation: false })).toMatchObject({ value: 0 });
});

test('both together are one action where that reading is chosen (interpretation remote-pairing)', () => {
  const both = { remoteNotification: true, remoteAuthorisation: true };
  expect(pairing({}, both, { 'remote-pairing': 'one-action' })).toMatchObject({ value: 5 });
});

test('what swaps leave open stays open between its ends', () => {
  expect(pairing({})).toMatchObject({ state: 'open', best: 0, worst: 10 });
  expect(pairing({}, { remoteAuthorisation: true })).toMatchObject({
    state: 'open',
    best: 5,
    worst: 10,
    missing: [{ address: 'parts/cell/remoteNotification' }],
  });
});

test('what the record says stands beside what swaps settled, with the evidence of both', () => {
  expect(pairing({ remoteNotification: false }, { remoteAuthorisation: true })).toEqual({
    state: 'known',
    value: 5,
    evidence: ['card', 'swaps/w4'],
  });
});

test('where record and swaps contradict each other the count is open and says so, whichever says yes', () => {
  const found = pairing({ serialised: false }, { remoteNotification: false, remoteAuthorisation: true });
  expect(found).toMatchObject({ state: 'open', best: 0, worst: 5 });
  expect(found.state === 'open' && found.missing.map(({ what }) => what)).toEqual([
    'whether a replacement for Cell needs a remote authorisation: the record says no, its swaps show the contrary',
  ]);
});
