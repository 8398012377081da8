import { type TinyRecord, tinySession } from '../../fixtures/tiny-record.ts';
import type { Draw } from '../steps/random.ts';

type Item = Record<string, unknown>;

/** A small made-up record: parts, some of them carried, fasteners with ways that the guide shows, trials, and one log. */
export interface RandomRecord extends TinyRecord {
  readonly parts: Record<string, Item>;
  readonly fasteners: Record<string, Item>;
  readonly sessions: Record<string, Item>;
}

const TOOLS = ['driver', 'pick', 'spudger'];

/** Draws a record of 3 to 5 parts. Trials are drawn apart, so that they may contradict each other. */
export const drawRecord = (draw: Draw): RandomRecord => {
  const names = ['p0', 'p1', 'p2', 'p3', 'p4'].slice(0, 3 + draw.below(3));
  const parts: Record<string, Item> = {};
  for (const [index, id] of names.entries()) {
    const within = index > 0 && draw.chance(0.25) ? { within: names[draw.below(index)] } : {};
    parts[id] = { ...within, ...(draw.chance(0.2) ? { role: draw.one(['battery', 'display', 'button']) } : {}) };
  }
  const fasteners: Record<string, Item> = {};
  for (const [index, id] of names.entries())
    for (let n = draw.below(3); n > 0; n--)
      fasteners[`f${index}${n}`] = drawFastener(draw, [
        id,
        draw.chance(0.5) || index === 0 ? 'chassis' : draw.one(names.slice(0, index)),
      ]);
  const ids = [...names, ...Object.keys(fasteners)];
  for (const [id, item] of Object.entries({ ...parts, ...fasteners })) item.trials = drawTrials(draw, ids, id);
  return {
    parts,
    fasteners,
    tools: { driver: { pickup: 3 }, pick: { pickup: 2 }, spudger: {} },
    procedures: guide(fasteners),
    sessions: { s: drawSession(draw, parts, fasteners) },
  };
};

const drawFastener = (draw: Draw, between: readonly string[]): Item => {
  const ways: Record<string, Item> = {};
  for (let way = 1 + draw.below(2); way > 0; way--) {
    const work = { do: 'unscrew', tools: draw.chance(0.2) ? [] : [draw.one(TOOLS)], takes: 1 + draw.below(30) };
    ways[`w${way}`] = { actions: draw.chance(0.2) ? [{ do: 'heat', tools: ['pick'], takes: 9 }, work] : [work] };
  }
  return {
    kind: draw.one(['screw', 'clip', 'connector']),
    between,
    ways,
    ...(draw.chance(0.15) ? { tether: true } : {}),
  };
};

const drawTrials = (draw: Draw, ids: readonly string[], self: string): Item =>
  Object.fromEntries(
    Array.from({ length: draw.below(3) }, (_, n) => [
      `t${n}`,
      drawTrial(
        draw,
        ids.filter((id) => id !== self),
      ),
    ]),
  );

/** One trial with a random set off, not the thing tried itself. */
export const drawTrial = (draw: Draw, others: readonly string[], came?: 'yes' | 'no'): Item => ({
  off: others.filter(() => draw.chance(0.3)),
  came: came ?? draw.one(['yes', 'no']),
});

/** A procedure that has every way of every fastener, so that each counts as shown. */
const guide = (fasteners: Record<string, Item>): Item => {
  const steps = Object.entries(fasteners).flatMap(([target, { ways }]) =>
    Object.keys(ways as Item).map((way) => ({ do: 'unscrew', target, way, tools: [] })),
  );
  return steps.length === 0 ? {} : { g: { for: 'p0', steps } };
};

const drawSession = (draw: Draw, parts: Record<string, Item>, fasteners: Record<string, Item>): Item => {
  const entries: Record<string, Item> = {};
  const released = new Set<string>();
  const order = draw.shuffled(Object.keys(parts));
  const add = (entry: Item): void => {
    entries[`e${Object.keys(entries).length}`] = draw.chance(0.5) ? { ...entry, goal: draw.one(order) } : entry;
  };
  for (const part of order) {
    if (draw.chance(0.2)) add({ do: 'lift', target: part, outcome: 'failed', because: 'blocked', tools: [] });
    for (const [id, fastener] of Object.entries(fasteners)) {
      if (released.has(id) || !(fastener.between as string[]).includes(part)) continue;
      released.add(id);
      add({ do: 'unscrew', target: id, way: Object.keys(fastener.ways as Item)[0], tools: [draw.one(TOOLS)] });
    }
    add({ do: 'lift', target: part, tools: draw.chance(0.3) ? [draw.one(TOOLS)] : [] });
  }
  return tinySession(entries);
};

/** The same record with every map in the reverse order and every id spelt otherwise. */
export const renamed = (record: RandomRecord, spell: (id: string) => string): RandomRecord => {
  const ids = new Set([...Object.keys(record.parts), ...Object.keys(record.fasteners), ...TOOLS]);
  const turn = (value: unknown): unknown => {
    if (typeof value === 'string') return ids.has(value) ? spell(value) : value;
    if (Array.isArray(value)) return value.map(turn);
    if (typeof value !== 'object' || value === null) return value;
    const turned = Object.entries(value).map(([key, inner]) => [ids.has(key) ? spell(key) : key, turn(inner)]);
    return Object.fromEntries(turned.reverse());
  };
  return turn(record) as RandomRecord;
};
