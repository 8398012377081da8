import { expect, test } from 'vitest';
import { smallRecord } from '../../../test/records/small-record.ts';
import { groundworkOf } from '../index-bases.ts';
import { matingsUsed } from './matings-used.ts';
import { openingOf } from './opening-costs.ts';

const record = smallRecord({
  tools: { driver: { name: 'Driver', basicKind: 'cross-recess-driver', pickup: 3 } },
  parts: {
    cover: { role: 'back-cover', name: 'Cover' },
    cell: { role: 'battery', name: 'Cell' },
    cam: { name: 'Camera' },
  },
  fasteners: {
    screws: {
      kind: 'screw',
      count: 2,
      between: ['cover', 'chassis'],
      ways: { turn: { actions: [{ do: 'unscrew', tools: ['driver'] }] } },
    },
    plug: { kind: 'connector', between: ['cell', 'chassis'], ways: { lever: { actions: [{ do: 'unplug' }] } } },
    flex: { kind: 'connector', between: ['cam', 'chassis'], ways: { lever: { actions: [{ do: 'unplug' }] } } },
  },
  log: [
    ['unscrew', 'screws', ['driver'], { way: 'turn' }],
    ['lift', 'cover'],
    ['unplug', 'plug', [], { way: 'lever' }],
    ['lift', 'cell'],
    ['plug', 'plug'],
    ['unplug', 'plug', [], { way: 'lever' }],
    ['unplug', 'flex', [], { way: 'lever' }],
    ['lift', 'cam'],
  ],
});

test('opening a part: a layer ends with what comes off to give access, parts under it share it, tools are taken up', () => {
  const groundwork = groundworkOf(record);
  expect(openingOf(groundwork, 'cover')).toEqual({ layers: [], releaseSeconds: 20, untimed: [] });
  expect(openingOf(groundwork, 'cell')?.layers).toEqual([{ id: 'under/cover', openSeconds: 20 }]);
  expect(openingOf(groundwork, 'cam')?.layers[0]).toEqual(openingOf(groundwork, 'cell')?.layers[0]);
});

test('opening a part to which no route is shown is not known', () => {
  const unseen = smallRecord({
    parts: { cell: { name: 'Cell', role: 'battery' } },
    fasteners: { glue: { kind: 'adhesive', between: ['cell', 'chassis'] } },
  });
  expect(openingOf(groundworkOf(unseen), 'cell')).toBeUndefined();
});

test('matings used: undone or plugged in, whichever is more, by specimen; swap sessions count as runs', () => {
  const { device } = groundworkOf(record).source;
  const used = matingsUsed(record, device);
  expect([used('a', 'plug'), used('a', 'flex'), used('b', 'plug')]).toEqual([2, 1, 0]);
  const [session] = Object.values(record.sessions ?? {});
  const asSwap = { ...record, sessions: { run: { ...session, kind: 'swap' as const } } } as typeof record;
  expect(matingsUsed(asSwap, device)('a', 'plug')).toBe(0);
});
