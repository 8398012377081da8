import { describe, expect, it } from 'vitest';
import type { Assessment, Entry } from '#record/schema/assessment';
import { liveReadout } from '../live/live-readout.ts';
import { routeHints } from './route-hints.ts';
import { suggestMark } from './suggest-mark.ts';

const bench = (...entries: readonly Entry[]): Assessment => ({
  format: 'unfasten/assessment',
  version: 1,
  product: { name: 'Tarn small' },
  specimens: { a: {} },
  parts: { battery: { name: 'battery' }, bracket: { name: 'speaker bracket' } },
  fasteners: {
    screws: { name: 'bracket screws', kind: 'screw', count: 3, between: ['bracket', 'chassis'] },
    tab: {
      name: 'lower tab',
      kind: 'stretch-release-strip',
      between: ['battery', 'chassis'],
      behind: [],
      ways: { pull: { actions: [{ do: 'pull' }] }, solvent: { actions: [{ do: 'dissolve' }, { do: 'pry' }] } },
    },
  },
  procedures: {
    book: {
      for: 'battery',
      steps: [
        { do: 'unscrew', target: 'screws' },
        { do: 'pull', target: 'tab' },
      ],
    },
  },
  sessions: {
    s: {
      kind: 'measured',
      specimen: 'a',
      start: '2026-03-02T09:00:00+01:00',
      startsAs: 'complete',
      entries: Object.fromEntries(entries.map((entry, index) => [`e${index}`, entry])),
      holds: { h: { from: 12, to: 20, reason: 'camera' } },
    },
  },
});
const proposed = (document: Assessment, route: readonly string[] = []) =>
  suggestMark(liveReadout(document, 's', 'battery'), { goal: 'battery', route })?.naming;
const tore: Entry = { at: 10, do: 'pull', target: 'tab', way: 'pull', outcome: 'failed', because: 'tore' };

describe('suggestMark', () => {
  it('goes by the first way, after its failure by the next, and after that proposes nothing of it', () => {
    expect(proposed(bench())).toMatchObject({ do: 'pull', target: 'tab', way: 'pull' });
    expect(proposed(bench(tore))).toMatchObject({ do: 'pry', target: 'tab', way: 'solvent' });
    const both = bench(tore, { ...tore, at: 30, do: 'pry', way: 'solvent' });
    expect(proposed(both)).toBeUndefined();
  });

  it('proposes the part whose last screws have just come, without a sight', () => {
    const came: Entry = { at: 10, do: 'unscrew', target: 'screws' };
    expect(proposed(bench(came))).toMatchObject({ do: 'lift', target: 'bracket', free: ['bracket'] });
    expect(proposed(bench(came, { at: 15, do: 'lift', target: 'bracket', outcome: 'failed' }))?.target).not.toBe(
      'bracket',
    );
  });

  it("goes by the maker's order where the record has it", () => {
    expect(routeHints(bench(), 'battery')).toEqual(['screws', 'tab']);
    expect(proposed(bench(), routeHints(bench(), 'battery'))).toMatchObject({ do: 'unscrew', target: 'screws' });
  });
});

describe('liveReadout', () => {
  it('leaves pauses out of the time taken', () => {
    const log = liveReadout(bench({ at: 10, do: 'turn-over' }, { at: 25, do: 'turn-over' }), 's', undefined).log;
    expect(log.filter(({ state }) => state !== 'hold').map(({ took }) => took)).toEqual([10, 7]);
  });

  it('knows a part that only the log names as soon as it is logged', () => {
    const before = liveReadout(bench(), 's', undefined);
    const document = bench({ at: 10, do: 'lift', target: 'antenna', free: ['antenna'] });
    expect(before.device.parts.has('antenna')).toBe(false);
    expect(liveReadout({ ...bench(), sessions: document.sessions }, 's', undefined).off.has('antenna')).toBe(true);
  });
});

describe('where nothing better is known, suggestMark goes by what came next on the predecessor', () => {
  const before = ['screws', 'bracket', 'tab', 'battery'];
  const unseen = (...entries: readonly Entry[]): Assessment => {
    const document = bench(...entries);
    const { behind: _seen, ...tab } = document.fasteners?.tab ?? { kind: 'screw' as const };
    return { ...document, fasteners: { ...document.fasteners, tab } } as Assessment;
  };
  const next = (document: Assessment) =>
    suggestMark(liveReadout(document, 's', undefined), { goal: undefined, route: [], before });
  const unscrewed: Entry = { at: 10, do: 'unscrew', target: 'screws' };
  const lifted: Entry = { at: 20, do: 'lift', target: 'bracket', free: ['bracket'] };
  const pulled: Entry = { at: 30, do: 'pull', target: 'tab', way: 'pull' };

  it('from its beginning, then after the last thing that came off here, passing what came out of turn', () => {
    expect(next(unseen())).toMatchObject({ naming: { target: 'screws' }, why: 'it came next on the predecessor' });
    expect(next(unseen(unscrewed, lifted))).toMatchObject({ naming: { do: 'pull', target: 'tab' } });
    expect(next(unseen(pulled, { at: 40, do: 'lift', target: 'battery', free: ['battery'] }))?.naming.target).toBe(
      'screws',
    );
  });

  it('and never before anything the record itself speaks for, nor for a part that is held', () => {
    expect(next(bench())?.why).toBe('its place is open');
    expect(next(unseen(tore, { ...tore, at: 11, way: 'solvent' }))?.naming.target).toBe('screws');
    expect(
      suggestMark(liveReadout(unseen(), 's', undefined), { goal: undefined, route: [], before: ['battery'] }),
    ).toBeUndefined();
  });

  it('without a predecessor nothing is proposed', () => {
    expect(suggestMark(liveReadout(unseen(), 's', undefined), { goal: undefined, route: [] })).toBeUndefined();
  });
});
