import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { EffectCode, SwapRun } from '../model/swap-run.ts';
import { effectTable } from './effect-table.ts';
import { firmwareInOrder } from './firmware-in-order.ts';
import { lineageAcrossFirmware, lineageFromPredecessor } from './lineage.ts';
import { cellLines, lineageWords } from './lineage-words.ts';

let made = 0;

/** A foreign fit of specimen b's part in specimen a, as fitted, unless told otherwise. */
const run = (change: Partial<SwapRun> = {}): SwapRun => {
  made += 1;
  const effect = change.effect ?? 'E0';
  return {
    id: `w${made}`,
    order: made,
    host: 'a',
    part: 'display',
    piece: { key: 'specimen:b', home: 'b' },
    isOwn: false,
    handled: true,
    firmware: '5.0.1',
    calibrated: false,
    authorised: false,
    identityMoved: false,
    outcome: effect === 'E0' ? 'passed' : effect === 'E4' ? 'reduced' : 'failed',
    together: [],
    attributed: true,
    evidence: [],
    ...change,
    effect,
  };
};

const runs = (...settings: readonly Partial<SwapRun>[]): readonly SwapRun[] => settings.map(run);

const tableOf = (all: readonly SwapRun[], setAside: ReadonlyMap<string, string> = new Map()) =>
  effectTable({
    runs: new Map(
      [...new Set(all.map(({ part }) => part))].map((key) => [key, all.filter(({ part }) => part === key)]),
    ),
    setAside,
  });

test.each<[string, Parameters<typeof firmwareInOrder>, readonly string[]]>([
  ['by their numbers', [['5.0.10', '5.0.9', '4.12', '5.0.9']], ['4.12', '5.0.9', '5.0.10']],
  [
    'as listed where all are',
    [
      ['b2', 'a9'],
      ['b2', 'x', 'a9'],
    ],
    ['b2', 'a9'],
  ],
  [
    'by their numbers where one is not listed',
    [
      ['6', '5', '7'],
      ['7', '6'],
    ],
    ['5', '6', '7'],
  ],
  ['the shorter first where it begins the longer', [['5.1.0', '5.1']], ['5.1', '5.1.0']],
])('firmware versions follow one another %s', (_, given, expected) => {
  expect(firmwareInOrder(...given)).toEqual(expected);
});

test('a cell counts foreign fits as fitted by effect, with hosts, own parts apart', () => {
  const table = tableOf(
    runs(
      { isOwn: true, arm: 'baseline' },
      { isOwn: true, host: 'b', arm: 'refit-control' },
      { effect: 'E5' },
      { effect: 'E5', host: 'b' },
      { effect: 'E6', host: 'b' },
      { effect: 'E0', authorised: true },
      { effect: 'E7', isOwn: true, arm: 'swap-back' },
    ),
  );
  const [cell] = table.rows[0]?.cells ?? [];
  expect(table.firmware).toEqual(['5.0.1']);
  expect(cell).toMatchObject({
    counts: { E5: 2, E6: 1, E7: 1 },
    worst: 'E7',
    reproduced: 'E5',
    hosts: ['a', 'b'],
    own: { E0: 2 },
    afterStep: { E0: 1 },
    uncounted: [],
  });
  expect(cell && cellLines(cell)[0]).toBe('E7 in 1 run, E6 in 1 run, E5 in 2 runs; 2 hosts');
});

test('what another part hid, what was not told apart and what has no effect counts nowhere, a clean pool counts', () => {
  const hidden = run({ outcome: 'unseen', effect: 'E0' });
  const pooled = run({ effect: 'E5', together: ['speaker'], attributed: false });
  const { effect: _none, ...noEffect } = run();
  const clean = run({ together: ['speaker'], attributed: false });
  const [cell] = tableOf([hidden, pooled, noEffect, clean]).rows[0]?.cells ?? [];
  expect([cell?.uncounted, cell?.counts, cell?.runs]).toEqual([
    [hidden.id, pooled.id, noEffect.id],
    { E0: 1 },
    [clean.id],
  ]);
});

test('a run laid to the piece is set aside with its effect and why', () => {
  const [bad, good] = runs({ effect: 'E5' }, { host: 'b' });
  const [cell] = tableOf([bad, good] as SwapRun[], new Map([[bad?.id ?? '', 'bad donor']])).rows[0]?.cells ?? [];
  expect([cell?.worst, cell?.setAside]).toEqual(['E0', [{ run: bad?.id, effect: 'E5', why: 'bad donor' }]]);
});

test('firmware not recorded has a column of its own, at the end, and no place in the lineage', () => {
  const { firmware: _none, ...unknown } = run({ effect: 'E5' });
  const table = tableOf([unknown, ...runs({ firmware: '5.0.1' })]);
  expect([table.firmware, lineageAcrossFirmware(table)]).toEqual([['5.0.1', undefined], []]);
});

test.each<[string, readonly (readonly EffectCode[])[], string]>([
  [
    'carried over',
    [['E4', 'E4'], ['E4']],
    'carried over: E4 in 2 runs (1 host) on firmware 5.0.1; then E4 in 1 run (1 host) on firmware 5.1.0',
  ],
  [
    'fixed',
    [['E5'], ['E0', 'E0']],
    'fixed: E5 in 1 run (1 host) on firmware 5.0.1; then E0 in 2 runs (1 host) on firmware 5.1.0',
  ],
  ['new', [['E0'], ['E3']], 'new: E0 in 1 run (1 host) on firmware 5.0.1; then E3 in 1 run (1 host) on firmware 5.1.0'],
  [
    'changed',
    [['E5', 'E5'], ['E2']],
    'changed: E5 in 2 runs (1 host) on firmware 5.0.1; then E2 in 1 run (1 host) on firmware 5.1.0',
  ],
  [
    'none',
    [['E0'], ['E0']],
    'no effect before or after: E0 in 1 run (1 host) on firmware 5.0.1; then E0 in 1 run (1 host) on firmware 5.1.0',
  ],
  [
    'open',
    [['E5', 'E0'], ['E0']],
    'open: runs of one level disagree: E5 in 1 run, E0 in 1 run (1 host) on firmware 5.0.1; then E0 in 1 run (1 host) on firmware 5.1.0',
  ],
])('across firmware an effect is %s', (_, [before = [], after = []], words) => {
  const table = tableOf([
    ...runs(...before.map((effect) => ({ effect, firmware: '5.0.1' }))),
    ...runs(...after.map((effect) => ({ effect, firmware: '5.1.0' }))),
  ]);
  expect(lineageAcrossFirmware(table).map(lineageWords)).toEqual([words]);
});

test('an own part no longer taken stands beside what the foreign one showed', () => {
  const table = tableOf(
    runs({ effect: 'E5', firmware: '5.0' }, { effect: 'E7', isOwn: true, firmware: '5.0' }, { firmware: '5.1' }),
  );
  expect(lineageAcrossFirmware(table).map(({ state }) => state)).toEqual(['fixed']);
});

test('a version on which a part was not tested is passed over', () => {
  const table = tableOf([
    ...runs({ effect: 'E5', firmware: '5.0' }),
    ...runs({ part: 'battery', firmware: '5.1' }),
    ...runs({ effect: 'E0', firmware: '5.2' }),
  ]);
  const steps = lineageAcrossFirmware(table).map(({ part, state, from, to }) => [
    part,
    state,
    from.cell?.firmware,
    to.cell?.firmware,
  ]);
  expect(steps).toEqual([['display', 'fixed', '5.0', '5.2']]);
});

test('from the predecessor: last tested firmware against last tested firmware; untested is said', () => {
  const now = tableOf([
    ...runs({ effect: 'E0', firmware: '5.0' }, { effect: 'E4', firmware: '5.1' }),
    ...runs({ part: 'battery', effect: 'E2' }),
    ...runs({ part: 'button' }),
  ]);
  const then = tableOf(runs({ effect: 'E5', firmware: '4.0' }, { effect: 'E4', firmware: '4.2' }));
  const steps = lineageFromPredecessor(now, (part) =>
    part === 'button' ? undefined : { product: 'Tarn 4', cells: part === 'display' ? (then.rows[0]?.cells ?? []) : [] },
  );
  expect(steps.map((step) => [step.part, lineageWords(step)])).toEqual([
    [
      'display',
      'carried over: Tarn 4: E4 in 1 run (1 host) on firmware 4.2; then E4 in 1 run (1 host) on firmware 5.1',
    ],
    ['battery', 'not tested: Tarn 4: no foreign fit; then E2 in 1 run (1 host) on firmware 5.0.1'],
  ]);
});

test('property: the order in which runs are given changes nothing, nor do other ids', () => {
  const drawn = fc.array(
    fc.record({
      effect: fc.constantFrom<EffectCode>('E0', 'E1', 'E4', 'E5', 'E7'),
      host: fc.constantFrom('a', 'b'),
      firmware: fc.constantFrom('5.0', '5.1', '5.10'),
      isOwn: fc.boolean(),
      part: fc.constantFrom('display', 'battery'),
    }),
    { minLength: 1, maxLength: 14 },
  );
  fc.assert(
    fc.property(drawn, fc.infiniteStream(fc.nat()), (settings, ranks) => {
      const all = runs(...settings);
      const shuffled = all
        .map((each) => ({ each, rank: ranks.next().value as number }))
        .sort((a, b) => a.rank - b.rank)
        .map(({ each }) => each);
      const seen = (list: readonly SwapRun[]) => {
        const table = tableOf(list);
        const byPart = <T extends { readonly part: string }>(rows: readonly T[]): readonly T[] =>
          rows.toSorted((a, b) => (a.part < b.part ? -1 : a.part > b.part ? 1 : 0));
        return { rows: byPart(table.rows), steps: byPart(lineageAcrossFirmware(table)) };
      };
      expect(seen(shuffled)).toEqual(seen(all));
      const renamed = all.map((each, index) => ({ ...each, id: `z${all.length - index}` }));
      expect(seen(renamed).steps.map(lineageWords)).toEqual(seen(all).steps.map(lineageWords));
    }),
  );
});
