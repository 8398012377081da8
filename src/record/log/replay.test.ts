import { describe, expect, it } from 'vitest';
import { type TinyRecord, tinyRecord, tinySession } from '../../../test/fixtures/tiny-record.ts';
import { deviceOf } from '../device/device.ts';
import { replayFindings } from './replay.ts';

const structure: TinyRecord = {
  parts: { cover: {}, board: {}, battery: { role: 'battery' }, display: {} },
  fasteners: {
    screws: { kind: 'screw', between: ['cover', 'chassis'], ways: { pry: { actions: [{ do: 'pry' }] } } },
    plug: { kind: 'connector', between: ['battery', 'board'] },
    flex: { kind: 'connector', between: ['display', 'board'], tether: true },
  },
};
const found = (entries: Record<string, Record<string, unknown>>, rest: TinyRecord = {}, session = {}) => {
  const record = tinyRecord({ ...structure, ...rest, sessions: { s: tinySession(entries, session) } });
  return replayFindings(record, deviceOf(record)).map(({ kind, path, value }) => [kind, path.split('/').at(-1), value]);
};
const unplugged = { do: 'unplug', target: 'plug' };

describe('replayFindings', () => {
  it('finds nothing in a log that holds together', () => {
    expect(found({ a: { do: 'unscrew', target: 'screws' }, b: { do: 'lift', target: 'cover' } })).toEqual([]);
  });

  it('finds a fastener or part that comes off twice, until it was put back', () => {
    const off = { do: 'unscrew', target: 'screws' };
    expect(found({ a: off, b: off })).toEqual([['off-twice', 'b', 'screws']]);
    expect(found({ a: off, b: { do: 'fasten', target: 'screws' }, c: off })).toEqual([]);
    expect(found({ a: off, b: { do: 'lift', target: 'cover' }, c: { do: 'lift', target: 'cover' } })).toEqual([
      ['off-twice', 'c', 'cover'],
    ]);
  });

  it('does not take the joint that follows from prying a part for coming off twice', () => {
    expect(found({ a: { do: 'unscrew', target: 'screws' }, b: { do: 'pry', target: 'cover' } })).toEqual([]);
  });

  it('finds what is fitted though it was on', () => {
    expect(found({ a: { do: 'fit', target: 'cover' } })).toEqual([['fitted-while-on', 'a', 'cover']]);
  });

  it('finds a connector undone while the battery is connected, not the battery connector itself', () => {
    const flex = { do: 'unplug', target: 'flex' };
    expect(found({ a: flex })).toEqual([['undone-live', 'a', 'flex']]);
    expect(found({ a: unplugged, b: flex })).toEqual([]);
    expect(found({ a: { do: 'unplug', released: ['plug', 'flex'] } })).toEqual([]);
  });

  it('is silent on a live connector that a decision frees from isolation', () => {
    const decisions = { d: { overrides: 'fasteners/flex/requires/isolation', reason: 'no supply rail', by: 'M. R.' } };
    expect(found({ a: { do: 'unplug', target: 'flex' } }, { decisions })).toEqual([]);
  });

  it('finds a part that came while something holds it; a tether holds only what is free', () => {
    expect(found({ a: { do: 'lift', target: 'cover' } })).toEqual([['came-while-held', 'a', 'cover']]);
    expect(found({ a: { do: 'fold-aside', target: 'display' } })).toEqual([]);
    expect(found({ a: { do: 'lift', target: 'display' } })).toEqual([['came-while-held', 'a', 'display']]);
    expect(found({ a: { do: 'fold-aside', target: 'cover' } })).toEqual([['came-while-held', 'a', 'cover']]);
  });

  it('finds only what needs no knowledge of the start in a run that did not begin complete', () => {
    const entries = { a: { do: 'lift', target: 'cover' }, b: { do: 'lift', target: 'cover' } };
    expect(found(entries, {}, { startsAs: { leftBy: 'unknown' } })).toEqual([['off-twice', 'b', 'cover']]);
  });

  it('finds two sessions that take over from the same one, and tells the shared past once', () => {
    const at = (day: number, startsAs: unknown, entries = {}) =>
      tinySession(entries, { start: `2026-10-0${day}T09:00:00+02:00`, startsAs });
    const record = tinyRecord({
      ...structure,
      sessions: {
        one: at(1, 'complete', { a: { do: 'fit', target: 'cover' } }),
        two: at(2, { leftBy: 'one' }),
        three: at(3, { leftBy: 'one' }),
      },
    });
    expect(replayFindings(record, deviceOf(record)).map(({ kind, path }) => [kind, path])).toEqual([
      ['left-twice', 'sessions/three/startsAs/leftBy'],
      ['fitted-while-on', 'sessions/one/entries/a'],
    ]);
  });
});
