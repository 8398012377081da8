import { describe, expect, it } from 'vitest';
import { type TinyRecord, tinySource } from '../../../test/fixtures/tiny-record.ts';
import { DEFAULT_COUNTING } from '../steps/counting-rules.ts';
import { countSteps } from '../steps/step-counter.ts';
import { flatAtoms, itemsOfRoute, type SequenceItem, sequenceStretch } from './bench-sequence.ts';
import { declaredItems, procedureFor } from './declared.ts';

const record: TinyRecord = {
  parts: { cover: {}, lens: { within: 'cover' }, battery: { role: 'battery' } },
  fasteners: {
    glue: {
      kind: 'adhesive',
      between: ['cover', 'chassis'],
      ways: { warm: { actions: [{ do: 'heat' }, { do: 'pry', tools: ['cup', 'pick'] }], leaves: 'resupplied' } },
    },
    screws: { kind: 'screw', count: 3, between: ['battery', 'chassis'] },
    clips: { kind: 'clip', count: 2, between: ['battery', 'chassis'] },
  },
  tools: { cup: {}, pick: {}, mat: {}, driver: {} },
  procedures: {
    old: { for: 'battery', date: '2026-01-01', steps: [{ do: 'lift', target: 'battery', tools: [] }] },
    g: {
      for: 'battery',
      date: '2026-05-01',
      evidence: [],
      steps: [
        { do: 'heat', target: 'glue', tools: ['mat'] },
        { do: 'pry', target: 'cover', tools: ['pick', 'cup'] },
        { do: 'unscrew', target: 'screws', released: ['clips', 'screws'], tools: ['driver'] },
        { do: 'lift', target: 'battery' },
        { do: 'clean', target: 'screws', tools: ['driver'], afterRelease: true },
      ],
    },
  },
};

describe('declaredItems', () => {
  const source = tinySource(record);
  const [id, procedure] = procedureFor(source, 'battery') ?? [];
  const items = id !== undefined && procedure ? declaredItems(source, id, procedure) : [];

  it('reads the latest procedure for the part', () => {
    expect(id).toBe('g');
    expect(items.map(({ address }) => address).at(-1)).toBe('procedures/g/steps/4');
  });

  it('reads what a step changes as a log does: prying a part releases its joint and frees it with its contents', () => {
    expect(items[0]).toMatchObject({ released: [], off: [] });
    expect(items[1]).toMatchObject({ released: [{ fastener: 'glue', leaves: 'resupplied' }], off: ['cover', 'lens'] });
  });

  it('counts as items the pieces of several fasteners that come away as such', () => {
    expect(items[2]?.atoms[0]?.releases).toEqual({ fastener: 'screws', count: 3, asItems: true });
  });

  it('counts: warm 1, cup and pick 3 (cover off), driver 4 (battery off); cleaning after release is none', () => {
    expect(countSteps(flatAtoms(items).atoms, DEFAULT_COUNTING, new Set()).total).toBe(4);
  });

  it('says where the tools are not stated', () => {
    expect(items.map(({ toolsUnknown }) => toolsUnknown)).toEqual([false, false, false, true, false]);
  });
});

describe('sequenceStretch', () => {
  const item = (part: string | undefined, off: readonly string[] = part ? [part] : []): SequenceItem => ({
    address: part ?? '-',
    atoms: [{ do: 'lift', tools: [], ...(part ? { removes: { part, becomes: 'free' as const } } : {}) }],
    released: [],
    off,
    evidence: [],
    toolsUnknown: false,
  });
  const priority = new Set(['cover', 'camera', 'battery']);

  it('begins after the last other priority part', () => {
    expect(
      sequenceStretch([item('cover'), item('plate'), item('camera'), item('x'), item('battery')], 'battery', priority),
    ).toBe(3);
    expect(sequenceStretch([item('plate'), item('battery')], 'battery', priority)).toBe(0);
  });

  it('does not begin anew by what comes off together with the part, or after it', () => {
    const last = item('battery', ['battery', 'camera']);
    expect(sequenceStretch([item('cover'), item('x'), last], 'battery', priority)).toBe(1);
    expect(sequenceStretch([item('cover'), item('x'), last, item(undefined)], 'battery', priority)).toBe(1);
    expect(sequenceStretch([item('cover'), item('battery'), item('camera')], 'battery', priority)).toBe(1);
  });
});

it('itemsOfRoute says once of each part that it is off', () => {
  const move = (id: string, gives: readonly `off/${string}`[]) => ({
    id,
    kind: 'fold' as const,
    subject: 'cover',
    atoms: [],
    needs: [],
    anyOf: [],
    gives,
  });
  const items = itemsOfRoute([move('fold/cover', ['off/cover', 'off/lens']), move('lift/lens', ['off/lens'])]);
  expect(items.map(({ off }) => off)).toEqual([['cover', 'lens'], []]);
});
