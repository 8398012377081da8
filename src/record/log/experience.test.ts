import { describe, expect, it } from 'vitest';
import { type TinyRecord, tinySession, tinySource } from '../../../test/fixtures/tiny-record.ts';
import { durationKey, wayKey } from './experience.ts';

const structure: TinyRecord = {
  parts: { cover: {} },
  fasteners: {
    glue: {
      kind: 'adhesive',
      between: ['cover', 'chassis'],
      ways: {
        cold: { actions: [{ do: 'pry', tools: ['pick', 'cup'] }] },
        warm: {
          actions: [
            { do: 'heat', tools: ['mat'] },
            { do: 'pry', tools: ['cup', 'pick'] },
          ],
        },
      },
    },
    screws: {
      kind: 'screw',
      count: 4,
      between: ['cover', 'chassis'],
      ways: { d: { actions: [{ do: 'unscrew', tools: ['driver'] }] } },
    },
  },
  tools: { pick: {}, cup: {}, mat: {}, driver: {} },
};
const of = (entries: Record<string, Record<string, unknown>>, session = {}, rest: TinyRecord = {}) =>
  tinySource({ ...structure, ...rest, sessions: { s: tinySession(entries, session) } }).experience;
const heat = { do: 'heat', target: 'cover', tools: ['mat'], took: 100 };
const pry = { do: 'pry', target: 'glue', tools: ['cup', 'pick'], took: 50 };

describe('experienceOf', () => {
  it('tells ways with the same tools apart by what prepared them, whatever the order of tools', () => {
    expect([...of({ a: pry }).ways.keys()]).toEqual([wayKey('glue', 'cold')]);
    expect([...of({ a: heat, b: pry }).ways.keys()]).toEqual([wayKey('glue', 'warm')]);
  });

  it('counts tries, successes and damages in measured sessions; a way done anywhere is done', () => {
    const entries = { a: { ...pry, outcome: 'failed', because: 'slipped' }, b: pry };
    expect(of(entries).ways.get(wayKey('glue', 'cold'))).toMatchObject({ done: 1, tries: 2, successes: 1, damages: 0 });
    expect(of(entries, { kind: 'exploration' }).ways.get(wayKey('glue', 'cold'))).toMatchObject({ done: 1, tries: 0 });
  });

  it('does not count an attempt that access or an interruption stopped', () => {
    const blocked = { ...pry, outcome: 'failed', because: 'blocked' };
    expect(of({ a: blocked }).ways.size).toBe(0);
  });

  it('does not take a way for done that damaged the product', () => {
    const damage = { d: { what: 'cracked', severity: 'function', ruling: 'route-damages-product' } };
    expect(of({ a: { ...pry, damage: ['d'] } }, {}, { damage }).ways.get(wayKey('glue', 'cold'))).toMatchObject({
      done: 0,
      tries: 1,
      successes: 0,
      damages: 1,
    });
  });

  it('times only measured work: heat under the way it served, part work with the rest of the set', () => {
    const screw = { do: 'unscrew', target: 'screws', tools: ['driver'] };
    const entries = {
      a: heat,
      b: pry,
      c: { ...screw, took: 30, outcome: 'partial', did: 3 },
      d: { ...screw, took: 12 },
      e: { do: 'lift', target: 'cover', took: 5, tools: [] },
    };
    const { durations } = of(entries);
    expect(durations.get(durationKey('glue', 'warm', 'heat'))).toEqual([100_000]);
    expect(durations.get(durationKey('glue', 'warm', 'pry'))).toEqual([50_000]);
    expect(durations.get(durationKey('screws', 'd', 'unscrew'))).toEqual([42_000]); // 30 + 12
    expect(durations.get(durationKey('cover', undefined, 'free'))).toEqual([5_000]);
    expect(of(entries, { kind: 'exploration' }).durations.size).toBe(0);
  });

  it('shares the time of one entry among the fasteners it released', () => {
    const { durations } = of({ a: { do: 'pry', released: ['glue', 'screws'], way: 'cold', took: 40, tools: [] } });
    expect(durations.get(durationKey('glue', 'cold', 'pry'))).toEqual([20_000]);
  });

  it('makes ways for what only a log names, with the heat before', () => {
    const own = tinySource({
      tools: structure.tools,
      sessions: {
        s: tinySession({ a: { ...heat, target: 'rim' }, b: { do: 'pry', target: 'rim', tools: ['pick', 'cup'] } }),
      },
    }).experience.loggedWays.get('rim');
    expect(Object.values(own ?? {})).toEqual([
      {
        actions: [
          { do: 'heat', tools: ['mat'] },
          { do: 'pry', tools: ['cup', 'pick'] },
        ],
      },
    ]);
  });
});

describe('GroundworkTrail, seen through the ways that experience finds', () => {
  const failed = { ...pry, outcome: 'failed', because: 'slipped' };

  it('lets heat that was not repeated hold through a failed attempt', () => {
    expect(of({ a: heat, b: failed, c: pry }).ways.get(wayKey('glue', 'warm'))).toMatchObject({
      tries: 2,
      successes: 1,
    });
  });

  it('times only the heat since the last failure where it was repeated', () => {
    const times = of({ a: { ...heat, took: 70 }, b: failed, c: heat, d: pry }).durations;
    expect(times.get(durationKey('glue', 'warm', 'heat'))).toEqual([100_000]);
  });
});
