import { expect, it } from 'vitest';
import { tinyRecord, tinySession } from '../../../test/fixtures/tiny-record.ts';
import { deviceOf } from '../device/device.ts';
import { loggedActions } from './bench-log.ts';
import { actionDurations } from './durations.ts';
import { holdClock } from './hold-clock.ts';

const times = (entries: Record<string, Record<string, unknown>>, session: Record<string, unknown> = {}) => {
  const record = tinyRecord({
    tools: { driver: { pickup: 4 }, pick: { pickup: '2 s' } },
    sessions: { s: tinySession(entries, session) },
  });
  const own = record.sessions?.s;
  if (!own) return {};
  const found = actionDurations(record, own, loggedActions(record, deviceOf(record), 's'));
  return Object.fromEntries(
    [...found].map(([id, { milliseconds, shared }]) => [id, shared ? `${milliseconds} shared` : milliseconds]),
  );
};

it('takes an action from the mark before it, less the holds between', () => {
  // 0 to 10: 10 s. 10 to 60 with 20 to 45 held: 50 - 25 = 25 s.
  expect(
    times(
      { a: { at: 10, tools: [] }, b: { at: 60, tools: [] } },
      { holds: { h: { from: 20, to: 45, reason: 'card' } } },
    ),
  ).toEqual({
    a: 10_000,
    b: 25_000,
  });
});

it('takes what was stated before what the marks say', () => {
  expect(times({ a: { at: 10, took: '1 min' } })).toEqual({ a: 60_000 });
});

it('takes a soak from its own start, with work in between on its own marks', () => {
  // Soak 100 to 400; work ends at 150 (since the mark at 90: 60 s); after the soak 20 s.
  expect(
    times({
      first: { at: 90, took: 5 },
      work: { at: 150 },
      soak: { at: 400, do: 'dissolve', began: 100 },
      next: { at: 420 },
    }),
  ).toEqual({ first: 5_000, work: 60_000, soak: 300_000, next: 20_000 });
});

it('shares an interval equally, less the holds in it, and says so', () => {
  // 100 to 160 less 12 s held, between two: 24 s each.
  expect(
    times(
      { a: { at: 120, interval: 'i' }, b: { at: 160, interval: 'i' } },
      { intervals: { i: { from: 100, to: 160 } }, holds: { h: { from: 130, to: 142, reason: 'call' } } },
    ),
  ).toEqual({ a: '24000 shared', b: '24000 shared' });
});

it('takes out the pick-up of tools that were not in hand, and only then', () => {
  // Driver 4 s, pick 2 s. Bare hands put nothing down.
  expect(
    times({
      a: { took: 10, tools: ['driver'] }, // 10 - 4
      b: { took: 10, tools: [] }, // 10
      c: { took: 10, tools: ['driver'] }, // still held: 10
      d: { took: 10, tools: ['pick', 'driver'] }, // the pick is new: 10 - 2
      e: { took: 3, tools: ['driver'] }, // held: 3
      f: { took: 1, tools: ['pick'] }, // never below nothing
    }),
  ).toEqual({ a: 6_000, b: 10_000, c: 10_000, d: 8_000, e: 3_000, f: 0 });
});

it('says nothing of a mark at zero', () => {
  expect(times({ a: { at: 0 }, b: { at: 5 } })).toEqual({ b: 5_000 });
});

it('holdClock counts holds that overlap once', () => {
  const record = tinyRecord({
    sessions: {
      s: tinySession({}, { holds: { a: { from: 10, to: 20, reason: 'x' }, b: { from: 15, to: 30, reason: 'y' } } }),
    },
  });
  const own = record.sessions?.s;
  const held = own ? holdClock(own) : () => -1;
  expect([held(0, 100), held(12, 18), held(0, 5), held(25, 26), held(30, 40), held(5, 5)]).toEqual([20, 6, 0, 1, 0, 0]);
});
