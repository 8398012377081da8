// What the swaps of a record came to takes effect wherever figures, duties and house scores are worked out.
import { expect, test } from 'vitest';
import type { Assessment } from '#record/schema/assessment';
import { dutiesOf } from '#verdict/duties/duties-of';
import { expectedRecord } from '#verdict/expectations/expected-record';
import { groundworkOf, indexBases, readingsOf } from '#verdict/index-bases';
import { rubricFacts } from '#verdict/rubric/facts/rubric-facts';
import { metricKey } from '#verdict/rubric/metric-kinds';
import type { Metric } from '#verdict/rubric/rubric-schema';
import { authorisedStep, crossed, type Fit, fitsOf, swapRecord } from '../fixtures/verdict-swaps.ts';

const FASTENERS = {
  plug: {
    kind: 'connector',
    between: ['camera', 'chassis'],
    ways: { lever: { actions: [{ do: 'unplug' }], leaves: 'reusable' } },
  },
};
const LOG = [
  ['unplug', 'plug', [], { way: 'lever' }],
  ['lift', 'camera'],
];

const recordWith = (fits: readonly Fit[], camera: object = {}): Assessment =>
  swapRecord(fitsOf('camera', fits), {
    fasteners: FASTENERS,
    log: LOG,
    parts: { camera: { name: 'Rear camera', role: 'rear-camera', behind: [], ...camera } },
  });

/** Steps of the camera on the best basis, at both ends. */
const steps = (record: Assessment): readonly unknown[] => {
  const best = indexBases(groundworkOf(record), readingsOf(record)).find(({ basis }) => basis === 'best');
  const { low, high, figures } = best ?? {};
  return [(high ?? figures)?.parts['rear-camera']?.steps, (low ?? figures)?.parts['rear-camera']?.steps];
};

const metricOf = (record: Assessment, metric: Metric) =>
  rubricFacts({ assessment: record }, [
    {
      format: 'unfasten/rubric',
      version: 1,
      id: 'asking',
      title: 'Asking',
      edition: '1',
      date: '2026-01-01',
      author: 'test',
      criteria: { one: { title: 'One', metric, weight: '1', scale: { words: { accepted: '100' } } } },
    } as never,
  ]).metrics[metricKey(metric)];

const LOCKED = [...crossed('E5'), authorisedStep('authorisation')];

test('without a swap pairing leaves the steps open by two actions, five steps each (Annex IV point 5)', () => {
  expect(steps(recordWith([]))).toEqual([1, 11]);
});

test('an established lock with its authorised remote step adds five steps; undecided adds a width, accepted nothing', () => {
  expect(steps(recordWith(LOCKED))).toEqual([6, 6]);
  expect(steps(recordWith(crossed('E5')))).toEqual([1, 11]);
  expect(steps(recordWith(crossed('E0')))).toEqual([1, 1]);
});

test('a lock that the record denies leaves the count open, and the verdict says why', () => {
  const record = recordWith(LOCKED, { serialised: false });
  expect(steps(record)).toEqual([1, 6]);
  const missing = indexBases(groundworkOf(record), readingsOf(record)).flatMap((basis) => basis.missing);
  expect(missing.map(({ what }) => what).join()).toContain('its swaps show the contrary');
});

test('the expectation that nothing needs pairing does not overrule what swaps settled', () => {
  const assumed = (fits: readonly Fit[]) =>
    steps(expectedRecord(recordWith(fits), { name: 'none', assumes: ['no-remote-pairing'] } as never));
  expect([assumed([]), assumed(LOCKED)]).toEqual([
    [1, 1],
    [6, 6],
  ]);
});

test('duties are judged from the swaps of the record without being handed them', () => {
  const state = (record: Assessment): string | undefined =>
    dutiesOf(record).find(({ id }) => id === 'r2r-technique')?.state;
  const states = [LOCKED, crossed('E0'), []].map((fits) => state(recordWith(fits)));
  expect(states).toEqual(['not-met', 'met', 'not-shown']);
});

test('a house rubric reads the finding of the swaps and the remote actions without being handed them', () => {
  const finding = { of: 'swap-finding', role: 'rear-camera' } as const;
  const pairing = { of: 'pairing', role: 'rear-camera' } as const;
  expect(metricOf(recordWith(LOCKED), finding)?.words).toEqual(['refused']);
  expect(metricOf(recordWith(crossed('E0')), finding)?.words).toEqual(['accepted']);
  expect(metricOf(recordWith([]), finding)?.words).toHaveLength(8);
  expect(metricOf(recordWith(LOCKED), pairing)?.range).toEqual({ low: '1', high: '1' });
});
