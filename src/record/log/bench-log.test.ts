import { describe, expect, it } from 'vitest';
import { tinyRecord, tinySession } from '../../../test/fixtures/tiny-record.ts';
import { deviceOf } from '../device/device.ts';
import { benchRuns, loggedActions, standingEntries, startsComplete } from './bench-log.ts';
import { effectsOf } from './effects.ts';

describe('standingEntries', () => {
  const record = tinyRecord({
    sessions: {
      s: tinySession({
        late: { at: 50, do: 'lift', target: 'a' },
        wrong: { at: 10, do: 'unscrew', target: 'x' },
        right: { at: 90, do: 'unscrew', target: 'y', corrects: 'wrong' },
        righter: { at: 95, do: 'unscrew', target: 'z', corrects: 'right' },
        never: { at: 20, do: 'pry', target: 'x' },
        no: { at: 99, corrects: 'never', withdrawn: true },
      }),
    },
  });

  it('puts the last correction at the time of the entry it corrects, and drops the withdrawn', () => {
    const session = record.sessions?.s;
    const standing = session ? standingEntries(session) : [];
    expect(standing.map(([id, { at, target }]) => [id, at, target])).toEqual([
      ['righter', 10, 'z'],
      ['late', 50, 'a'],
    ]);
  });
});

describe('effectsOf', () => {
  const record = tinyRecord({
    parts: { cover: {}, cam: {} },
    fasteners: {
      glue: { kind: 'adhesive', between: ['cover', 'chassis'], ways: { pry: { actions: [{ do: 'pry' }] } } },
      plug: { kind: 'connector', between: ['cam', 'cover'], ways: { pull: { actions: [{ do: 'unplug' }] } } },
    },
  });
  const device = deviceOf(record);
  const effects = (work: Parameters<typeof effectsOf>[0]) => {
    const { released, freed, aside, refitted } = effectsOf(work, device);
    return [released, freed, aside, refitted];
  };

  it('releases a fastener that is the target of a releasing action', () => {
    expect(effects({ do: 'pry', target: 'glue' })).toEqual([['glue'], [], [], []]);
  });

  it('frees a part that is pried, with the joint that has such a way', () => {
    expect(effects({ do: 'pry', target: 'cover' })).toEqual([['glue'], ['cover'], [], []]);
  });

  it('leaves a part lying that is only unplugged', () => {
    expect(effects({ do: 'unplug', target: 'cam' })).toEqual([['plug'], [], [], []]);
  });

  it('changes nothing by heat, by a failure, by part of a set or by a mark without a name', () => {
    const nothing = [[], [], [], []];
    expect(effects({ do: 'heat', target: 'glue' })).toEqual(nothing);
    expect(effects({ do: 'pry', target: 'glue', outcome: 'failed' })).toEqual(nothing);
    expect(effects({ do: 'pry', target: 'glue', outcome: 'partial' })).toEqual(nothing);
    expect(effects({ target: 'glue' })).toEqual(nothing);
  });

  it('goes by what an entry lists before what its action would do', () => {
    expect(effects({ do: 'lift', target: 'cover', aside: ['cover'] })).toEqual([[], [], ['cover'], []]);
    expect(effects({ do: 'pry', target: 'cover', released: [], aside: ['cover'] })).toEqual([[], [], ['cover'], []]);
    expect(effects({ do: 'fit', target: 'cam' })).toEqual([[], [], [], ['cam']]);
  });
});

describe('benchRuns', () => {
  const session = (start: string, startsAs: unknown, specimen = 'a') =>
    tinySession({}, { start: `2026-10-0${start}T09:00:00+02:00`, startsAs, specimen });
  const record = tinyRecord({
    sessions: {
      third: session('3', { leftBy: 'second' }),
      second: session('2', { leftBy: 'first' }),
      first: session('1', 'complete'),
      other: session('4', { leftBy: 'elsewhere' }, 'b'),
      elsewhere: session('1', 'complete', 'c'),
    },
  });

  it('follows sessions in the order they were left, not the order of the map', () => {
    expect(benchRuns(record).map(({ sessions }) => sessions)).toEqual([
      ['first', 'second', 'third'],
      ['elsewhere'],
      ['other'],
    ]);
  });

  it('does not know the start of a chain that is broken', () => {
    expect(benchRuns(record).map((run) => startsComplete(record, run))).toEqual([true, true, false]);
  });

  it('gives both of two sessions that take over from one a run with what came before', () => {
    const branched = tinyRecord({
      sessions: {
        a: session('1', 'complete'),
        b: session('2', { leftBy: 'a' }),
        c: session('3', { leftBy: 'a' }),
      },
    });
    expect(benchRuns(branched).map(({ sessions }) => sessions)).toEqual([
      ['a', 'b'],
      ['a', 'c'],
    ]);
  });
});

it('loggedActions gives one goal as a list, none as undefined', () => {
  const record = tinyRecord({
    parts: { a: {}, b: {} },
    sessions: { s: tinySession({ x: { do: 'lift', target: 'a', goal: 'a' }, y: { do: 'lift', target: 'b' } }) },
  });
  expect(loggedActions(record, deviceOf(record), 's').map(({ goals }) => goals)).toEqual([['a'], undefined]);
});
