import { describe, expect, it } from 'vitest';
import { tinyRecord, tinySession } from '../../../test/fixtures/tiny-record.ts';
import { deviceOf } from './device.ts';
import { roleFromId } from './priority-roles.ts';
import { sameTools } from './tool-set.ts';

// cover ── glue ── chassis; lens sits within the cover, held to it by a clip and to the board by a flex;
// battery carries a cell; cell ── weld ── battery (inside), battery ── plug ── board (across).
const described = tinyRecord({
  parts: {
    cover: { role: 'back-cover' },
    lens: { within: 'cover' },
    board: { role: 'main-board' },
    battery: { role: 'battery' },
    cell: { within: 'battery' },
    ghost: { absent: true },
  },
  fasteners: {
    glue: {
      kind: 'adhesive',
      between: ['cover', 'chassis'],
      ways: { pry: { actions: [{ do: 'pry', tools: ['pick'] }] } },
    },
    clip: { kind: 'clip', between: ['lens', 'cover'] },
    flex: { kind: 'connector', between: ['lens', 'board'] },
    weld: { kind: 'solder', between: ['cell', 'battery'] },
    plug: { kind: 'connector', between: ['battery', 'board'] },
    gone: { kind: 'screw', between: ['cover', 'chassis'], absent: true },
  },
  tools: { pick: {}, driver: {} },
});

describe('deviceOf', () => {
  const device = deviceOf(described);

  it('leaves out what is known not to exist', () => {
    expect(device.parts.has('ghost')).toBe(false);
    expect(device.fasteners.has('gone')).toBe(false);
  });

  it('counts a fastener as crossing where exactly one end is inside the cluster', () => {
    expect(device.parts.get('cover')?.crossing).toEqual(['glue', 'flex']);
    expect(device.parts.get('lens')?.crossing).toEqual(['clip', 'flex']);
    expect([...(device.parts.get('cover')?.cluster ?? [])]).toEqual(['cover', 'lens']);
  });

  it('takes as battery connector what joins a battery to the rest, not a weld inside it', () => {
    expect(device.batteryConnectors).toEqual(['plug']);
    expect(device.fasteners.get('weld')?.electrical).toBe(true);
  });

  it('refuses carriers nested too deep with a located error', () => {
    const parts = Object.fromEntries(
      Array.from({ length: 80 }, (_, i) => [`p${i}`, i === 0 ? {} : { within: `p${i - 1}` }]),
    );
    expect(() => deviceOf(tinyRecord({ parts }))).toThrow(/carried more than 64 deep/);
  });
});

describe('deviceOf on a log alone', () => {
  const device = deviceOf(
    tinyRecord({
      sessions: {
        s: tinySession({
          a: { do: 'pry', target: 'rim', outcome: 'failed', tools: ['pick'] },
          b: { do: 'unscrew', target: 'rim', tools: ['driver'] },
          c: { do: 'pull', target: 'battery', tools: [] },
          d: { do: 'lift', target: 'plate', tools: [] },
          e: { do: 'unplug', target: 'battery-plug', tools: [] },
          f: { do: 'unscrew', target: 'typo', tools: [] },
          g: { do: 'unscrew', target: 'rim', tools: [], corrects: 'f', withdrawn: true },
        }),
      },
      tools: { pick: {}, driver: {} },
    }),
  );

  it('takes what was lifted, and a priority part pulled off by itself, for parts; other targets for fasteners', () => {
    expect([...device.parts.keys()].sort()).toEqual(['battery', 'plate']);
    expect([...device.fasteners.keys()].sort()).toEqual(['battery-plug', 'battery.joint', 'rim']);
  });

  it('names the kind by the action that let go, not by one that failed', () => {
    expect(device.fasteners.get('rim')?.kind).toBe('screw');
  });

  it('learns nothing from a withdrawn entry', () => {
    expect(device.fasteners.has('typo')).toBe(false);
  });

  it('takes a plug named after the battery for its connector, and its joint for holding it alone', () => {
    expect(device.batteryConnectors).toEqual(['battery-plug']);
    expect(device.parts.get('battery')?.crossing).toEqual(['battery.joint']);
  });
});

describe('roleFromId', () => {
  it('reads a role with a number or a word of place after it', () => {
    expect(['battery', 'speaker-2', 'button-power', 'speaker-left-top'].map(roleFromId)).toEqual([
      'battery',
      'speaker',
      'button',
      'speaker',
    ]);
  });

  it('does not take a cable or bracket of a priority part for the part', () => {
    expect(['display-cable', 'battery-bracket', 'batteries', 'speaker-mesh'].map(roleFromId)).toEqual([
      undefined,
      undefined,
      undefined,
      undefined,
    ]);
  });
});

it('sameTools goes by the set, whatever the order', () => {
  expect(sameTools(['cup', 'pick'], ['pick', 'cup', 'cup'])).toBe(true);
  expect(sameTools(['cup'], undefined)).toBe(false);
});
