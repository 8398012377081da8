import { describe, expect, it } from 'vitest';
import { type TinyRecord, tinySession, tinySource } from '../../../test/fixtures/tiny-record.ts';
import { contradictions } from './trials.ts';

// Everything is free to be lifted: two screws hold nothing here, so that only the order of the log speaks.
const parts = { a: {}, b: {}, c: {}, carrier: {}, inside: { within: 'carrier' } };
const trialsIn = (entries: Record<string, Record<string, unknown>>, rest: TinyRecord = {}, session = {}) =>
  tinySource({ parts, ...rest, sessions: { s: tinySession(entries, session) } }).trials;
const offOf = (trials: ReturnType<typeof trialsIn>, id: string, sign: 'positive' | 'negative' = 'positive') =>
  trials.get(id)?.[sign].map(({ off }) => [...off].sort());
const lift = (target: string, rest = {}) => ({ do: 'lift', target, ...rest });

describe('trialsOf, from a log', () => {
  it('takes what comes off for a success with all that was off then', () => {
    const trials = trialsIn({ x: lift('a'), y: lift('b'), z: lift('c') });
    expect(offOf(trials, 'a')).toEqual([[]]);
    expect(offOf(trials, 'c')).toEqual([['a', 'b']]);
  });

  it('does not bind a trial by what was done for another goal', () => {
    const trials = trialsIn({ x: lift('a', { goal: 'a' }), y: lift('b'), z: lift('c', { goal: 'c' }) });
    expect(offOf(trials, 'b')).toEqual([['a']]); // no goal: everything binds
    expect(offOf(trials, 'c')).toEqual([['b']]); // a was for a; b had no goal
  });

  it('binds by a shared goal, and by what was done for the very thing tried', () => {
    const trials = trialsIn({
      x: lift('a', { goal: ['b', 'c'] }),
      y: lift('b', { goal: 'c' }),
      z: lift('c', { goal: 'a' }),
    });
    expect(offOf(trials, 'b')).toEqual([['a']]);
    expect(offOf(trials, 'c')).toEqual([['a', 'b']]);
  });

  it('needs for a part what the same entry released', () => {
    const fasteners = { s: { kind: 'screw', between: ['b', 'chassis'] } };
    const trials = trialsIn({ x: lift('a'), y: { do: 'pry', target: 'b', released: ['s'] } }, { fasteners });
    expect(offOf(trials, 'b')).toEqual([['a', 's']]);
    expect(offOf(trials, 's')).toEqual([['a']]);
  });

  it('takes a blocked attempt for a failure with all that was off, whatever the goals; other failures show nothing', () => {
    const blocked = { outcome: 'failed', because: 'blocked', goal: 'b' };
    const trials = trialsIn({
      x: lift('a', { goal: 'a' }),
      y: lift('b', blocked),
      z: lift('c', { outcome: 'failed', because: 'slipped' }),
    });
    expect(offOf(trials, 'b', 'negative')).toEqual([['a']]);
    expect(offOf(trials, 'c', 'negative')).toEqual([]);
  });

  it('makes no trial of contents that ride along, and one when they come out', () => {
    const trials = trialsIn({ x: lift('carrier'), y: lift('inside') });
    expect(offOf(trials, 'carrier')).toEqual([[]]);
    expect(offOf(trials, 'inside')).toEqual([['carrier']]);
  });

  it('learns nothing from a run that did not begin complete', () => {
    const trials = trialsIn({ x: lift('a') }, {}, { startsAs: { leftBy: 'unknown' } });
    expect(offOf(trials, 'a')).toEqual([]);
  });

  it('counts what came but was damaged only where the damage is ruled a slip of the hand', () => {
    const came = (ruling: string | undefined) =>
      trialsIn(
        { x: lift('a', { damage: ['d'] }) },
        { damage: { d: { what: 'a tear', severity: 'function', ...(ruling ? { ruling } : {}) } } },
      ).get('a')?.positive.length;
    expect([came('slip-of-hand'), came(undefined), came('undecided'), came('route-damages-product')]).toEqual([
      1, 0, 0, 0,
    ]);
  });
});

describe('trialsOf, as recorded', () => {
  const recorded = (trials: Record<string, unknown>, rest: TinyRecord = {}) =>
    tinySource({ ...rest, parts: { ...parts, ghost: { absent: true }, b: { trials } } }).trials.get('b');

  it('sorts trials by what came, and damaged ones by their ruling', () => {
    const subject = recorded({
      yes: { off: ['a'], came: 'yes' },
      no: { off: ['c'], came: 'no' },
      open: { off: [], came: 'damaged' },
      counts: { off: ['c', 'carrier'], came: 'damaged', ruling: 'counts-as-came' },
    });
    expect(subject?.positive.map(({ address }) => address)).toEqual(['parts/b/trials/yes', 'parts/b/trials/counts']);
    expect(subject?.negative.map(({ address }) => address)).toEqual(['parts/b/trials/no']);
  });

  it('keeps the least successes and the greatest failures', () => {
    const subject = recorded({
      more: { off: ['a', 'c'], came: 'yes' },
      less: { off: ['a'], came: 'yes' },
      small: { off: ['c'], came: 'no' },
      large: { off: ['c', 'carrier'], came: 'no' },
    });
    expect(subject?.positive.map(({ off }) => off)).toEqual([['a']]);
    expect(subject?.negative.map(({ off }) => off)).toEqual([['c', 'carrier']]);
  });

  it('clearing a and b in two trials never clears both: the two sets stay apart', () => {
    const subject = recorded({ one: { off: ['a'], came: 'no' }, two: { off: ['c'], came: 'no' } });
    expect(subject?.negative.map(({ off }) => off)).toEqual([['a'], ['c']]);
  });

  it('knows that contents and holding fasteners of a part off were off too, but for a tether', () => {
    const fasteners = {
      held: { kind: 'screw', between: ['carrier', 'chassis'] },
      cable: { kind: 'connector', between: ['carrier', 'a'], tether: true },
      within: { kind: 'clip', between: ['inside', 'carrier'] },
    };
    const subject = recorded({ no: { off: ['carrier'], came: 'no' } }, { fasteners });
    expect([...(subject?.negative[0]?.besides ?? [])].sort()).toEqual(['held', 'inside']);
  });

  it('leaves out of sights and trials what is known not to exist', () => {
    const source = tinySource({
      parts: { ...parts, ghost: { absent: true }, b: { behind: [['ghost', 'a'], ['c']] } },
    });
    expect(source.trials.get('b')?.sight).toEqual([['a'], ['c']]);
  });
});

describe('contradictions', () => {
  const found = (b: Record<string, unknown>) =>
    contradictions(tinySource({ parts: { ...parts, b } }).trials).map(({ came, didNot }) => [came, didNot]);

  it('are a failure with at least as much off as a success', () => {
    const trials = { yes: { off: ['a'], came: 'yes' }, no: { off: ['a', 'c'], came: 'no' } };
    expect(found({ trials })).toEqual([['parts/b/trials/yes', 'parts/b/trials/no']]);
  });

  it('are a failure with a set off that was seen to be enough, the empty one included', () => {
    const trials = { no: { off: ['a', 'c'], came: 'no' } };
    expect(found({ trials, behind: [['c']] })).toEqual([['b behind [c]', 'parts/b/trials/no']]);
    expect(found({ trials, behind: [] })).toEqual([['b behind []', 'parts/b/trials/no']]);
  });

  it('are none where the failure had less off', () => {
    const trials = { yes: { off: ['a', 'c'], came: 'yes' }, no: { off: ['a'], came: 'no' } };
    expect(found({ trials })).toEqual([]);
  });
});
