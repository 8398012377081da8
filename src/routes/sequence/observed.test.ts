import { describe, expect, it } from 'vitest';
import { type TinyRecord, tinySession, tinySource } from '../../../test/fixtures/tiny-record.ts';
import { DEFAULT_COUNTING } from '../steps/counting-rules.ts';
import { countSteps } from '../steps/step-counter.ts';
import { flatAtoms, type SequenceItem } from './bench-sequence.ts';
import { observedSequence } from './observed.ts';

const fewest = (items: readonly SequenceItem[]): number =>
  countSteps(flatAtoms(items).atoms, DEFAULT_COUNTING, new Set()).total;
const names = (addresses: readonly string[]) => addresses.map((address) => address.split('/').at(-1)).join(' ');
const tools = { driver: {}, pick: {}, mat: {}, spudger: {} };

const observe = (
  entries: Record<string, Record<string, unknown>>,
  rest: TinyRecord = {},
  options: Partial<Parameters<typeof observedSequence>[2]> = {},
) => {
  const source = tinySource({ tools, sessions: { s: tinySession(entries) }, ...rest });
  const found = observedSequence(source, 'target', { reach: 'pessimistic', keepAll: false, fewest, ...options });
  return found && { ...found, kept: names(found.items.map(({ address }) => address)), steps: fewest(found.items) };
};
const both = (entries: Record<string, Record<string, unknown>>, rest: TinyRecord = {}) =>
  (['pessimistic', 'optimistic'] as const).map((reach) => observe(entries, rest, { reach })?.kept);
const lift = (target: string, more = {}) => ({ do: 'lift', target, tools: [], ...more });
const parts = { a: {}, b: {}, target: {} };

describe('observedSequence', () => {
  it('keeps pessimistically all that was off, optimistically only what nothing shows unneeded', () => {
    expect(both({ x: lift('a'), y: lift('b'), z: lift('target'), after: lift('other') }, { parts })).toEqual([
      'x y z',
      'z',
    ]);
  });

  it('leaves out what was done for another goal, and what a trial or sight shows unneeded', () => {
    const entries = {
      x: lift('a', { goal: 'a' }),
      y: lift('b', { goal: 'target' }),
      z: lift('target', { goal: 'target' }),
    };
    expect(observe(entries, { parts })?.kept).toBe('y z');
    const trial = { target: { trials: { t: { off: ['a'], came: 'yes' } } } };
    expect(observe({ x: lift('a'), y: lift('b'), z: lift('target') }, { parts: { ...parts, ...trial } })?.kept).toBe(
      'x z',
    );
    const sight = { target: { behind: [['b']] }, b: { behind: [] } };
    expect(both({ x: lift('a'), y: lift('b'), z: lift('target') }, { parts: { ...parts, ...sight } })).toEqual([
      'y z',
      'y z',
    ]);
  });

  it('optimistically keeps the cheapest thing outside each failed set', () => {
    // It did not come with a off, it came with a and b off: b was needed.
    const entries = {
      x: lift('a'),
      no: lift('target', { outcome: 'failed', because: 'blocked' }),
      y: lift('b'),
      z: lift('target'),
    };
    expect(both(entries, { parts })).toEqual(['x y z', 'y z']);
  });

  it('chooses among alternatives by the count, here one step against two', () => {
    const more = {
      parts: {
        ...parts,
        c: { behind: [] },
        a: { behind: [] },
        b: { behind: [] },
        target: { behind: [['a', 'b'], ['c']] },
      },
    };
    expect(observe({ x: lift('a'), y: lift('b'), w: lift('c'), z: lift('target') }, more)?.kept).toBe('w z');
  });

  it('keeps the fasteners that held it and what isolation asks for, though sight says it is free', () => {
    const rest: TinyRecord = {
      parts: { battery: { role: 'battery' }, target: { behind: [] }, a: {} },
      fasteners: {
        plug: { kind: 'connector', between: ['battery', 'chassis'], behind: [] },
        flex: { kind: 'connector', between: ['target', 'chassis'], behind: [] },
      },
    };
    const entries = {
      p: { do: 'unplug', target: 'plug', tools: ['spudger'] },
      a: lift('a'),
      f: { do: 'unplug', target: 'flex', tools: ['spudger'] },
      z: lift('target'),
    };
    expect(both(entries, rest)).toEqual(['p f z', 'p f z']);
    const decisions = { d: { overrides: 'fasteners/flex/requires/isolation', reason: 'no rail', by: 'M. R.' } };
    expect(both(entries, { ...rest, decisions })).toEqual(['f z', 'f z']);
  });

  it('does not keep what was put back before it was needed', () => {
    const entries = { x: lift('a'), back: { do: 'fit', target: 'a' }, y: lift('b'), z: lift('target') };
    expect(observe(entries, { parts })?.kept).toBe('y z');
  });

  it('takes for needed all that was off where the removal damaged something and nobody ruled on it', () => {
    const damage = { d: { what: 'a tear', severity: 'function' } };
    const entries = { x: lift('a'), z: lift('target', { damage: ['d'] }) };
    expect(observe(entries, { parts, damage })?.kept).toBe('x z');
  });

  it('is undefined where the part never came free in a run that began complete', () => {
    expect(observe({ x: lift('a') }, { parts })).toBeUndefined();
    const sessions = { s: tinySession({ z: lift('target') }, { startsAs: { leftBy: 'unknown' } }) };
    expect(observe({}, { parts, sessions })).toBeUndefined();
  });

  it('prefers a measured run of the reference specimen to an exploration', () => {
    const sessions = {
      e: tinySession({ x: lift('a'), z: lift('target') }, { kind: 'exploration' }),
      m: tinySession({ w: lift('target') }, { start: '2026-10-02T09:00:00+02:00' }),
    };
    expect(observe({}, { parts, sessions })?.kept).toBe('w');
  });
});

describe('what led up to a release', () => {
  const glued: TinyRecord = {
    parts: { target: { behind: [] } },
    fasteners: {
      glue: {
        kind: 'adhesive',
        between: ['target', 'chassis'],
        behind: [],
        ways: {
          w: {
            actions: [
              { do: 'heat', tools: ['mat'] },
              { do: 'pry', tools: ['pick'] },
            ],
          },
        },
      },
    },
  };
  const heat = { do: 'heat', target: 'glue', tools: ['mat'] };
  const pry = { do: 'pry', target: 'glue', tools: ['pick'] };
  const failed = { ...pry, outcome: 'failed', because: 'slipped' };

  it('keeps the heat, and both heats where the first opened part of the way', () => {
    expect(observe({ h: heat, p: pry, z: lift('target') }, glued)).toMatchObject({ kept: 'h p z', steps: 2 });
    const partial = { ...pry, outcome: 'partial' };
    expect(observe({ h: heat, q: partial, i: heat, p: pry, z: lift('target') }, glued)).toMatchObject({
      kept: 'h q i p z',
      steps: 4,
    });
  });

  it('counts a failed attempt and the heat it alone used as no step, and gives both to the switch', () => {
    const found = observe({ h: heat, f: failed, i: heat, p: pry, z: lift('target') }, glued);
    expect(found).toMatchObject({ kept: 'i p z', steps: 2 });
    expect(names(found?.failed.map(({ item }) => item.address) ?? [])).toBe('h f');
    expect(observe({ h: heat, f: failed, p: pry, z: lift('target') }, glued)?.kept).toBe('h p z');
  });

  it('keeps cleaning after the release under a mark of its own', () => {
    const found = observe({ p: pry, c: { do: 'clean', target: 'glue', tools: ['pick'] }, z: lift('target') }, glued);
    expect(found?.items.map(({ atoms }) => atoms[0]?.afterRelease)).toEqual([undefined, true, undefined]);
  });

  it('counts part of a set where it came off and the rest where that did', () => {
    const screws = {
      parts: glued.parts,
      fasteners: { s: { kind: 'screw', count: 4, between: ['target', 'chassis'], behind: [] } },
    };
    const turn = { do: 'unscrew', target: 's', tools: ['driver'] };
    const found = observe({ p: { ...turn, outcome: 'partial', did: 3 }, d: turn, z: lift('target') }, screws);
    expect(found?.items.map(({ atoms }) => atoms[0]?.releases?.count)).toEqual([3, 1, undefined]);
  });

  it('names the marks that have no name yet', () => {
    expect(names(observe({ m: {}, z: lift('target') }, { parts })?.unnamed ?? [])).toBe('m');
  });
});

describe('too many alternatives', () => {
  // Nine parts, each behind one of two: 512 choices of eleven or more; the target is behind all nine.
  const nine = Array.from({ length: 9 }, (_, i) => i);
  const many: Record<string, unknown> = { target: { behind: [nine.map((i) => `t${i}`)] } };
  for (const i of nine)
    Object.assign(many, {
      [`a${i}`]: { behind: [] },
      [`b${i}`]: { behind: [] },
      [`t${i}`]: { behind: [[`a${i}`], [`b${i}`]] },
    });
  const order = [...nine.flatMap((i) => [`a${i}`, `b${i}`]), ...nine.map((i) => `t${i}`), 'target'];
  const entries = Object.fromEntries(order.map((part) => [`e-${part}`, lift(part)]));

  it('pessimistically leave a sequence that frees the part, and say so', () => {
    const found = observe(entries, { parts: many });
    expect(found).toMatchObject({ capped: true, steps: 19 }); // nine of the eighteen, the nine, the target
  });

  it('optimistically leave a lower bound, and say so', () => {
    const found = observe(entries, { parts: many }, { reach: 'optimistic' });
    expect(found?.capped).toBe(true);
    expect(found?.steps).toBeLessThanOrEqual(19);
    expect(found?.steps).toBeGreaterThanOrEqual(10);
  });
});
