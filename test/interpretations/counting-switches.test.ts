import { describe, expect, it } from 'vitest';
import type { Assessment } from '#record/schema/assessment';
import { basisOf, type LogLine, smallRecord } from '../records/small-record.ts';

type Raw = Readonly<Record<string, unknown>>;

const screws = (count: number): Raw => ({
  kind: 'screw',
  count,
  between: ['battery', 'chassis'],
  behind: [],
  ways: { out: { actions: [{ do: 'unscrew', tools: ['driver'] }], leaves: 'reusable' } },
});

/** A battery held by these fasteners, each reachable from the start, with the log that took it out. */
const battery = (fasteners: Raw, log: readonly LogLine[], more: Raw = {}): Assessment =>
  smallRecord({
    parts: { battery: { role: 'battery', behind: [], serialised: false, ...(more.battery as Raw | undefined) } },
    fasteners,
    log: [...log, ['lift', 'battery', (more.liftWith as string[] | undefined) ?? []]],
  });

const steps = (record: Assessment, readings: Readonly<Record<string, string>> = {}) =>
  (['observed', 'best'] as const).map((basis) => basisOf(record, basis, readings).figures.parts.battery?.steps);

const glue = (id: string, actions: readonly Raw[]): Raw => ({
  [id]: {
    kind: 'adhesive',
    between: ['battery', 'chassis'],
    behind: [],
    ways: { off: { actions, leaves: 'reusable' } },
  },
});

describe('switches of the step count, observed and best found', () => {
  it('row 1: three screws under one driver are one step, or three and the battery', () => {
    const record = battery({ s: screws(3) }, [['unscrew', 's', ['driver']]]);
    expect(steps(record)).toEqual([1, 1]);
    expect(steps(record, { 'fasteners-as-parts': 'yes' })).toEqual([4, 4]);
  });

  it('row 2: unplugging goes with the part, or counts by itself', () => {
    const plug = {
      kind: 'connector',
      between: ['battery', 'chassis'],
      behind: [],
      ways: { out: { actions: [{ do: 'unplug', tools: ['spudger'] }], leaves: 'reusable' } },
    };
    const record = battery({ plug }, [['unplug', 'plug', ['spudger']]]);
    expect(steps(record)).toEqual([1, 1]);
    expect(steps(record, { unplugging: 'by-itself' })).toEqual([2, 2]);
  });

  it('row 3: cleaning after the fastener let go counts or not', () => {
    const actions = [
      { do: 'pull', tools: [] },
      { do: 'clean', tools: ['cloth'], afterRelease: true },
    ];
    const record = battery(glue('strip', actions), [
      ['pull', 'strip'],
      ['clean', 'strip', ['cloth']],
    ]);
    expect(steps(record)).toEqual([1, 1]);
    expect(steps(record, { 'cleaning-after-release': 'counted' })).toEqual([3, 3]);
  });

  it('row 4: two heatings of one place are two steps or one', () => {
    const warmed = [
      { do: 'heat', tools: ['mat'], place: 'edge' },
      { do: 'peel', tools: ['pick'] },
    ];
    const record = battery({ ...glue('upper', warmed), ...glue('lower', warmed) }, [
      ['heat', 'upper', ['mat'], { place: 'edge' }],
      ['peel', 'upper', ['pick']],
      ['heat', 'lower', ['mat'], { place: 'edge' }],
      ['peel', 'lower', ['pick']],
    ]);
    expect(steps(record)).toEqual([4, 4]);
    expect(steps(record, { reheating: 'once-per-place' })).toEqual([3, 3]);
  });

  it('row 5: a clamp beside the driver is no tool, or a second one at once', () => {
    const held = {
      ...screws(1),
      ways: { out: { actions: [{ do: 'unscrew', tools: ['clamp', 'driver'] }], leaves: 'reusable' } },
    };
    const record = battery({ s: held }, [['unscrew', 's', ['clamp', 'driver']]]);
    expect(steps(record)).toEqual([1, 1]);
    expect(steps(record, { 'holding-aids': 'tools' })).toEqual([2, 2]);
  });

  it('row 6: taking up the first tool is no change, or one', () => {
    const record = battery({ s: screws(1) }, [['unscrew', 's', ['driver']]]);
    expect(steps(record, { 'first-pick-up': 'change' })).toEqual([2, 2]);
  });

  it('row 6: going to bare hands is no change, or one', () => {
    const record = battery({ s: screws(1) }, [['unscrew', 's', ['driver']]]);
    expect(steps(record, { 'bare-hands': 'change' })).toEqual([2, 2]);
  });

  it('row 7: notification and authorisation are ten steps or five', () => {
    const record = battery({ s: screws(1) }, [['unscrew', 's', ['driver']]], {
      battery: { serialised: true, remoteNotification: true, remoteAuthorisation: true },
    });
    expect(steps(record)).toEqual([11, 11]);
    expect(steps(record, { 'remote-pairing': 'one-action' })).toEqual([6, 6]);
  });
});

describe('switches of the log, observed alone', () => {
  const cover = { role: 'back-cover', behind: [], serialised: false };
  const clips = {
    kind: 'clip',
    between: ['cover', 'chassis'],
    behind: [],
    ways: { pry: { actions: [{ do: 'pry', tools: ['pick'] }], leaves: 'reusable' } },
  };

  it('an attempt that failed is no step, or one', () => {
    const record = battery({ s: screws(1) }, [
      ['unscrew', 's', ['pick'], { outcome: 'failed', because: 'wrong-tool' }],
      ['unscrew', 's', ['driver']],
    ]);
    expect(steps(record)).toEqual([1, 1]);
    expect(steps(record, { 'failed-attempts': 'counted' })).toEqual([2, 1]);
  });

  it('what was done before without need is left out, or counts', () => {
    const record = smallRecord({
      parts: { cover, battery: { role: 'battery', behind: [], serialised: false } },
      fasteners: { clips, s: screws(1) },
      log: [
        ['pry', 'clips', ['pick']],
        ['lift', 'cover'],
        ['unscrew', 's', ['driver']],
        ['lift', 'battery'],
      ],
    });
    expect(steps(record)).toEqual([1, 1]);
    expect(steps(record, { 'session-order': 'all-actions' })).toEqual([2, 1]);
  });
});
