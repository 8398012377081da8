import { expect, it } from 'vitest';
import { tinyRecord, tinySession, tinySource } from '../../../test/fixtures/tiny-record.ts';
import { deviceOf } from '../device/device.ts';
import { loggedActions } from './bench-log.ts';
import { actionDurations } from './durations.ts';
import { durationKey, wayKey } from './experience.ts';

const parts = { cover: {}, cam: {} };
const fasteners = {
  glue: { kind: 'adhesive', between: ['cover', 'chassis'], ways: { pry: { actions: [{ do: 'pry' }] } } },
  plug: { kind: 'connector', between: ['cam', 'chassis'], ways: { lever: { actions: [{ do: 'unplug' }] } } },
};
const unplug = { do: 'unplug', target: 'plug', way: 'lever', tools: [] };
/** The plug comes off, is plugged in again for the camera and comes off once more; then the cover follows. */
const entries = {
  first: { at: 10, ...unplug },
  back: { at: 30, do: 'plug', target: 'plug', tools: [] },
  again: { at: 70, ...unplug },
  pry: { at: 100, do: 'pry', target: 'glue', way: 'pry', tools: [] },
};
const session = (rest: Record<string, unknown> = {}) => tinySession(entries, rest);
const inRetake = { retakes: { r: { from: 20, to: 75, repeats: 'first' } } };

const experience = (rest: Record<string, unknown>) =>
  tinySource({ parts, fasteners, sessions: { s: session(rest) } }).experience;

it.each<[string, Record<string, unknown>]>([
  ['a stretch inside a measured session', inRetake],
  ['a stretch that nobody ended', { retakes: { r: { from: 20 } } }],
])('a retake feeds neither times nor odds: %s', (_what, rest) => {
  const found = experience(rest);
  expect(found.durations.get(durationKey('plug', 'lever', 'unplug'))).toEqual([10_000]);
  expect(found.ways.get(wayKey('plug', 'lever'))).toMatchObject({ done: 2, tries: 1, successes: 1 });
});

it('without a retake the same entries count twice', () => {
  const found = experience({});
  expect(found.durations.get(durationKey('plug', 'lever', 'unplug'))).toEqual([10_000, 40_000]);
  expect(found.ways.get(wayKey('plug', 'lever'))).toMatchObject({ tries: 2 });
});

it.each(['exploration', 'retake', 'swap', 'reassembly'])(
  'a session of kind %s feeds neither times nor odds',
  (kind) => {
    const found = experience({ kind });
    expect(found.durations.size).toBe(0);
    expect(found.ways.get(wayKey('plug', 'lever'))).toMatchObject({ done: 2, tries: 0, successes: 0 });
  },
);

const times = (log: Record<string, Record<string, unknown>>, rest: Record<string, unknown>) => {
  const record = tinyRecord({ parts, fasteners, sessions: { s: tinySession(log, rest) } });
  const own = record.sessions?.s;
  if (!own) throw new Error('no session');
  const found = actionDurations(record, own, loggedActions(record, deviceOf(record), 's'));
  return Object.fromEntries([...found].map(([entry, { milliseconds }]) => [entry, milliseconds]));
};

it('what follows a retake is timed from the mark before it, less the retake and the holds in it once', () => {
  // 10 to 100 is 90 s, of which 20 to 75 was the retake (55 s): 35 s, with a hold in the retake as without.
  expect(times(entries, inRetake)).toEqual({ first: 10_000, back: 10_000, again: 40_000, pry: 35_000 });
  const holds = { h: { from: 40, to: 50, reason: 'focus' } };
  expect(times(entries, { ...inRetake, holds })).toMatchObject({ again: 30_000, pry: 35_000 });
});

it('a heat begun before a retake stays work of the session, one begun in it does not', () => {
  const heats = {
    early: { at: 60, do: 'heat', target: 'glue', began: 5 },
    late: { at: 90, do: 'heat', target: 'glue', began: 30 },
  };
  const record = tinyRecord({ parts, fasteners, sessions: { s: tinySession(heats, inRetake) } });
  expect(loggedActions(record, deviceOf(record), 's').map(({ kind }) => kind)).toEqual(['measured', 'retake']);
});
