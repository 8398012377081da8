import { describe, expect, test } from 'vitest';
import { smallRecord } from '../../../test/records/small-record.ts';
import { runsOf } from './runs-of.ts';
import type { SwapRun } from './swap-run.ts';

type Raw = Readonly<Record<string, unknown>>;

const READY: Raw = { closed: true, grounded: true, charge: '40 %', settled: true };
const SPECIMENS: Raw = {
  a: { revision: 'R1', accountLock: 'none', firmware: { old: { version: '5.0.0', since: '2026-09-01T08:00:00Z' } } },
  b: { revision: 'R1', accountLock: 'own-account' },
  e: { revision: 'R2', accountLock: 'locked' },
};

const own = (specimen: string, run: number, more: Raw = {}): Raw => ({
  specimen,
  part: 'cell',
  fitted: 'own',
  run,
  effect: 'E0',
  ...READY,
  ...more,
});
const foreign = (specimen: string, run: number, more: Raw = {}): Raw => ({
  ...own(specimen, run),
  fitted: 'foreign',
  effect: 'E5',
  donor: { kind: 'used-genuine', specimen: specimen === 'a' ? 'b' : 'a' },
  ...more,
});

const read = (swaps: Raw, rest: Raw = {}) => {
  const record = smallRecord({
    parts: { cell: { name: 'Cell' }, lens: { name: 'Lens' } },
    specimens: SPECIMENS,
    swaps,
    ...rest,
  });
  const { runs, problems } = runsOf(record);
  return { runs, cell: runs.get('cell') ?? [], problems };
};
const only = (swaps: Raw, id: string, rest: Raw = {}): SwapRun | undefined =>
  read(swaps, rest).cell.find((run) => run.id === id);

describe('what was fitted', () => {
  test('an own part and the own part of another specimen have their home for a key', () => {
    const { cell, problems } = read({ x: own('a', 1), y: foreign('a', 2) });
    expect(cell.map(({ piece, isOwn }) => [piece.key, piece.home, isOwn])).toEqual([
      ['specimen:a', 'a', true],
      ['specimen:b', 'b', false],
    ]);
    expect(problems).toEqual([]);
  });

  test('a piece of the bench has its own key, or that of its home; revision and lock are taken from where they stand', () => {
    const swapBench = {
      donors: {
        spare: { part: 'cell', kind: 'makers-spare', revision: 'R9' },
        torn: { part: 'cell', kind: 'salvaged-locked-unit', specimen: 'e' },
      },
    };
    const swaps = {
      x: foreign('a', 1, { donor: { kind: 'makers-spare', item: 'spare', homeLock: 'unknown' } }),
      y: foreign('a', 2, { donor: { kind: 'salvaged-locked-unit', item: 'torn' } }),
      z: foreign('a', 3),
    };
    expect(read(swaps, { swapBench }).cell.map(({ piece }) => piece)).toEqual([
      { key: 'spare', kind: 'makers-spare', revision: 'R9' },
      { key: 'specimen:e', home: 'e', kind: 'salvaged-locked-unit', revision: 'R2', homeLock: 'locked' },
      { key: 'specimen:b', home: 'b', kind: 'used-genuine', revision: 'R1' },
    ]);
  });

  test('the revision marked on an own part goes before that of its unit', () => {
    const swaps = {
      x: own('b', 1),
      y: foreign('a', 2, { donor: { kind: 'used-genuine', specimen: 'b', revision: 'P7' } }),
    };
    expect(only(swaps, 'x')).toMatchObject({ hostRevision: 'P7', piece: { revision: 'P7' } });
    expect(only(swaps, 'y')).toMatchObject({ hostRevision: 'R1', piece: { revision: 'P7' } });
  });

  test.each<[string, Raw]>([
    ['a foreign piece without a donor', { x: foreign('a', 1, { donor: undefined }) }],
    [
      'one of two nameless spares',
      {
        x: foreign('a', 1, { donor: { kind: 'makers-spare' } }),
        y: foreign('b', 2, { donor: { kind: 'makers-spare' } }),
      },
    ],
    ['a donor that is the host', { x: foreign('a', 1, { donor: { kind: 'used-genuine', specimen: 'a' } }) }],
    ['own or foreign not said', { x: { specimen: 'a', part: 'cell', run: 1, effect: 'E5' } }],
  ])('%s shows nothing, and is named', (_, swaps) => {
    const { cell, problems } = read(swaps);
    expect(cell[0]?.outcome).toBe('unseen');
    expect(problems[0]?.address).toBe('swaps/x');
    expect(problems[0]?.what).toContain('not recorded wh');
  });

  test('the stage of the protocol says that the own part was fitted', () => {
    expect(only({ x: own('a', 1, { fitted: undefined, arm: 'swap-back' }) }, 'x')?.isOwn).toBe(true);
  });
});

describe('what a run showed', () => {
  test.each<[string, Raw, string]>([
    ['E0 is passed', {}, 'passed'],
    ['E4 is reduced', { effect: 'E4' }, 'reduced'],
    ['any other effect is failed', { effect: 'E1' }, 'failed'],
    ['no effect is unseen', { effect: undefined }, 'unseen'],
    ['E0 broken off is unseen', { interrupted: true }, 'unseen'],
    ['an effect seen before it was broken off counts', { interrupted: true, effect: 'E6' }, 'failed'],
    ['hidden is unseen', { masked: true, effect: 'E5' }, 'unseen'],
  ])('%s', (_, more, outcome) => {
    const { cell, problems } = read({ x: own('a', 1, more) });
    expect(cell[0]?.outcome).toBe(outcome);
    expect(problems).toHaveLength(outcome === 'unseen' ? 1 : 0);
  });

  test('another part that kept the host from running hides a pass, in that host and run only', () => {
    const dark = { ...own('a', 1), part: 'lens', effect: 'E6' };
    const { cell } = read({ x: own('a', 1), y: own('b', 1), z: own('a', 2), dark });
    expect(cell.map(({ id, outcome }) => [id, outcome])).toEqual([
      ['x', 'unseen'],
      ['y', 'passed'],
      ['z', 'passed'],
    ]);
  });

  test.each<[string, string, string]>([
    ['E3', 'E1', 'passed'],
    ['E1', 'E1', 'failed'],
    ['E0', 'E1', 'failed'],
    ['E3', 'E2', 'failed'],
  ])('%s as fitted and %s once authorised: the step %s', (before, after, outcome) => {
    const { cell } = read({
      x: foreign('a', 1, { effect: before }),
      y: foreign('a', 2, { effect: after, arm: 'authorised' }),
    });
    expect(cell[1]).toMatchObject({ effect: after, outcome });
  });

  test('an effect of the whole run is told of its parts together', () => {
    const pool = { effectOf: 'run', effect: 'E5' };
    const { cell } = read({ x: foreign('a', 1, pool), y: { ...foreign('a', 1, pool), part: 'lens' } });
    expect(cell[0]).toMatchObject({ attributed: false, together: ['lens'], foreignBeside: ['lens'] });
    const besideOwn = read({ x: foreign('a', 1), y: { ...own('a', 1), part: 'lens' } }).cell[0];
    expect(besideOwn).toMatchObject({ together: ['lens'], foreignBeside: [] });
    expect(only({ x: foreign('a', 1, pool) }, 'x')?.attributed).toBe(true);
  });
});

describe('the circumstances', () => {
  test.each<[string, Raw, boolean | undefined]>([
    ['closed, grounded, charged', {}, true],
    ['open', { closed: false, grounded: undefined }, false],
    ['nearly empty', { charge: '19 %' }, false],
    ['charge not recorded', { charge: undefined }, undefined],
    ['grounding not recorded', { grounded: undefined }, undefined],
  ])('ready or not: %s', (_, more, ready) => {
    expect(only({ x: own('a', 1, more) }, 'x')?.ready).toBe(ready);
  });

  test('firmware comes from the fit, else from its session, else from the history of the specimen', () => {
    const on = '2026-09-02T10:00:00Z';
    expect(only({ x: own('a', 1, { firmware: '5.1', on }) }, 'x')?.firmware).toBe('5.1');
    expect(only({ x: own('a', 1, { on }) }, 'x')?.firmware).toBe('5.0.0');
    expect(only({ x: own('b', 1, { on }) }, 'x')?.firmware).toBeUndefined();
  });

  test('a piece that stays keeps what was done to it, one that is fitted anew does not', () => {
    const swaps = {
      base: own('a', 1, { arm: 'baseline' }),
      cross: foreign('a', 2, { arm: 'cross' }),
      paired: foreign('a', 3, { arm: 'authorised', pairing: { remote: 'authorisation' } }),
      updated: foreign('a', 4, { arm: 'firmware' }),
      anew: foreign('a', 5, { arm: 'replicate' }),
    };
    expect(read(swaps).cell.map(({ handled, authorised }) => [handled, authorised])).toEqual([
      [false, false],
      [true, false],
      [false, true],
      [false, true],
      [true, false],
    ]);
  });
});

describe('which fits count', () => {
  test('a correction takes the place of what it corrects, a withdrawn fit leaves nothing', () => {
    const { cell } = read({
      x: foreign('a', 1),
      again: foreign('a', 1, { run: undefined, corrects: 'x', effect: 'E0' }),
      y: foreign('a', 2),
      never: foreign('a', 2, { corrects: 'y', withdrawn: true }),
    });
    expect(cell.map(({ id, order, effect }) => [id, order, effect])).toEqual([['again', 1, 'E0']]);
  });

  test('a fit without a run number, and two in one run, have no place and are named', () => {
    const { cell, problems } = read({
      x: own('a', 1),
      y: foreign('a', 1),
      z: own('b', 2, { run: undefined }),
      w: own('b', 3),
    });
    expect(cell.map(({ id }) => id)).toEqual(['w']);
    expect(problems.map(({ address }) => address)).toEqual(['swaps/x', 'swaps/y', 'swaps/z']);
  });

  test('other ids and another order of the record change nothing but the ids', () => {
    const swaps = { z: own('a', 1, { arm: 'baseline' }), a: foreign('a', 2), m: foreign('b', 3), b: own('a', 4) };
    const turned = Object.fromEntries(
      Object.entries(swaps)
        .reverse()
        .map(([id, swap]) => [`n${id}`, swap]),
    );
    const bare = (some: Raw) => read(some).cell.map(({ id: _, ...run }) => run);
    expect(bare(turned)).toEqual(bare(swaps));
  });
});
