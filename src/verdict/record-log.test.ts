import { expect, test } from 'vitest';
import type { Assessment } from '#record/schema/assessment';
import { recordLog } from './record-log.ts';

const record = (more: Partial<Assessment> = {}): Assessment =>
  ({
    format: 'unfasten/assessment',
    version: 1,
    product: { name: 'Tarn 9' },
    fasteners: { ring: { name: 'ring screws' }, rail: { name: 'rail screws' } },
    sessions: {
      m: {
        kind: 'measured',
        specimen: 'a',
        operator: 'M. R.',
        start: '2026-09-28T10:02:00+02:00',
        startsAs: 'complete',
        entries: {
          late: { at: 90, do: 'lift', target: 'cover', tools: [] },
          first: { at: 30, do: 'unscrew', target: 'ring', tools: ['driver'], took: 9 },
          second: {
            at: 95,
            do: 'unscrew',
            target: 'rail',
            tools: ['driver'],
            took: 9,
            corrects: 'first',
            note: 'film',
          },
          gone: { at: 99, corrects: 'late', withdrawn: true },
        },
      },
    },
    ...more,
  }) as Assessment;

test('recordLog keeps every entry in the order of its time, what gave way too', () => {
  const { sessions } = recordLog(record());
  expect(sessions[0]?.entries.map(({ id, words }) => [id, words])).toEqual([
    ['first', 'unscrew ring screws'],
    ['late', 'lift cover'],
    ['second', 'unscrew rail screws'],
    ['gone', 'taken back'],
  ]);
});

test('recordLog says of a correction by whom and in which fields it differs, and of a withdrawal that it is one', () => {
  expect(recordLog(record()).corrections).toEqual([
    {
      of: 'sessions/m/entries/first',
      by: 'sessions/m/entries/second',
      who: 'M. R.',
      differences: [{ field: 'target', before: 'ring screws', after: 'rail screws' }],
      isWithdrawn: false,
      note: 'film',
    },
    { of: 'sessions/m/entries/late', by: 'sessions/m/entries/gone', who: 'M. R.', differences: [], isWithdrawn: true },
  ]);
});

test('recordLog names the operator of a run read again, who may be another than the first', () => {
  const fit = { specimen: 'a', part: 'coil', run: 1, effect: 'E4', operator: 'M. R.' };
  const swaps = { r1: fit, again: { ...fit, effect: 'E5', operator: 'J. K.', corrects: 'r1', on: '2026-10-12' } };
  const { corrections } = recordLog(
    record({ sessions: {}, swaps: swaps as unknown as NonNullable<Assessment['swaps']> }),
  );
  expect(corrections).toEqual([
    {
      of: 'swaps/r1',
      by: 'swaps/again',
      who: 'J. K.',
      differences: [{ field: 'effect', before: 'E4', after: 'E5' }],
      isWithdrawn: false,
    },
  ]);
});
