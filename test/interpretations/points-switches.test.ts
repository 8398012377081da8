import { describe, expect, it } from 'vitest';
import { basisOf, type LogLine, smallRecord } from '../records/small-record.ts';

const way = (what: string, tools: readonly string[], leaves = 'reusable') => ({
  way: { actions: [{ do: what, tools }], leaves },
});
const held = (part: string, ways: unknown, behind: readonly (readonly string[])[] = []) => ({
  kind: 'other',
  between: [part, 'chassis'],
  behind,
  ways,
});

describe('row 10: where the stretch of a part begins', () => {
  // The pins hold cover and battery together; the cover came off before the battery, which did not need that.
  const log: readonly LogLine[] = [
    ['pull', 'pins', ['mat']],
    ['peel', 'glue', ['pick']],
    ['lift', 'cover'],
    ['lift', 'battery'],
  ];
  const record = smallRecord({
    parts: {
      cover: { role: 'back-cover', behind: [], serialised: false },
      battery: { role: 'battery', behind: [], serialised: false },
    },
    fasteners: {
      pins: { ...held('cover', way('pull', ['mat'])), between: ['cover', 'battery'] },
      glue: held('battery', way('peel', ['pick'])),
    },
    spares: { kit: { name: 'Kit', replaces: ['cover', 'battery'], contents: { standing: 'established' } } },
    log,
  });

  it('observed: own sequence has all of it in the stretch, the common order begins after the cover', () => {
    const own = basisOf(record, 'observed').figures.parts.battery;
    const common = basisOf(record, 'observed', { 'previous-priority-part': 'common-order' }).figures.parts.battery;
    expect([own?.T, common?.T]).toEqual([1, 5]);
  });

  it('best found: what the shallower cover needs as well is not in the stretch of the battery', () => {
    const own = basisOf(record, 'best').figures.parts.battery;
    const common = basisOf(record, 'best', { 'previous-priority-part': 'common-order' }).figures.parts.battery;
    expect([own?.steps, basisOf(record, 'best').figures.parts['back-cover']?.steps]).toEqual([2, 1]);
    expect([own?.T, common?.T]).toEqual([1, 4]);
  });
});
