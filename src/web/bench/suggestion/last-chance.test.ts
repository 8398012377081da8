import { expect, it } from 'vitest';
import type { Assessment, Entry, Session } from '#record/schema/assessment';
import { liveReadout } from '../live/live-readout.ts';
import { lastChance } from './last-chance.ts';

const session = (specimen: string, ...entries: readonly Entry[]): Session => ({
  kind: 'measured',
  specimen,
  start: '2026-03-02T09:00:00+01:00',
  startsAs: 'complete',
  entries: Object.fromEntries(entries.map((entry, index) => [`e${index}`, entry])),
});
const bench = (sessions: Record<string, Session>): Assessment => ({
  format: 'unfasten/assessment',
  version: 1,
  product: { name: 'Tarn small' },
  specimens: { a: {}, b: {} },
  parts: { battery: { name: 'battery', role: 'battery' }, bracket: { name: 'bracket' } },
  fasteners: {
    flex: { kind: 'connector', between: ['battery', 'chassis'] },
    screws: { kind: 'screw', between: ['bracket', 'chassis'] },
  },
  sessions,
});
const unplugged: Entry = { at: 10, do: 'unplug', target: 'flex' };
const asked = (sessions: Record<string, Session>) => {
  const document = bench(sessions);
  const readout = liveReadout(document, 's', undefined);
  return lastChance({ document, session: 's', readout }, { do: 'lift', target: 'bracket' })?.subject;
};

it('asks before a part goes away whether the battery comes with it in', () => {
  expect(asked({ s: session('a', unplugged) })).toBe('battery');
  expect(asked({ s: session('a') })).toBeUndefined();
});

it('does not ask what another log has shown', () => {
  const came: Entry = { at: 20, do: 'lift', target: 'battery', free: ['battery'] };
  expect(asked({ s: session('a', unplugged), other: session('b', unplugged, came) })).toBeUndefined();
});
