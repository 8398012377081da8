import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { readAssessment } from '#record/read/read-assessment';
import type { Assessment } from '#record/schema/assessment';
import type { EffectCell } from '#swaps/lineage/effect-table';
import { cellHead, cellLines } from '#swaps/lineage/lineage-words';
import { swapsOf } from '#verdict/swaps/swaps-of';
import { fisherWords, shareWords } from './figure-words.ts';
import { predecessorOn } from './predecessor-on.ts';
import { runCautions } from './run-cautions.ts';
import { newFit, newRun } from './run-draft.ts';

const file = new URL('../../../examples/tarn-5/assessment.yaml', import.meta.url);
const tarn = readAssessment({ fileName: 'assessment.yaml', bytes: readFileSync(file) }).assessment as Assessment;

test('the figures of a part read as sentences with their counts', () => {
  const coil = swapsOf(tarn)?.parts.find(({ part }) => part === 'coil');
  const { shareOfUnits, fisher } = coil?.effects.find(({ firmware }) => firmware === '5.0.1') ?? {};
  expect(shareOfUnits && shareWords(shareOfUnits)).toBe(
    '2 of 2 specimens show it: of all units, anything from 0.1581 to 1.0000 would agree with that (95 %, exact).',
  );
  expect(fisher && fisherWords(fisher)).toMatch(
    /^0 of 2 refit controls and 4 of 4 foreign fits show it\. .* p = 0\.0667 \(exact, one-sided; two-sided 0\.0667\)\.$/,
  );
});

describe('a cell of the effect table', () => {
  const cell: EffectCell = {
    part: 'coil',
    firmware: '5.0.1',
    counts: {},
    showing: {},
    runs: [],
    hosts: [],
    own: {},
    afterStep: {},
    setAside: [],
    uncounted: [],
  };

  test('says that nothing was tested, never that all is well', () => {
    expect([cellHead(cell), cellLines(cell)]).toEqual(['not tested', []]);
  });

  test('leads with what was reproduced, else says that it was seen once', () => {
    const once = { ...cell, counts: { E3: 1 }, worst: 'E3', hosts: ['a'], runs: ['x'] } as const;
    expect([cellHead(once), cellLines(once)]).toEqual(['E3, seen once', ['E3 in 1 run; 1 host']]);
    const twice = { ...once, counts: { E0: 1, E3: 2 }, reproduced: 'E3', hosts: ['a', 'b'] } as const;
    expect([cellHead(twice), cellLines(twice)]).toEqual(['E3', ['E3 in 2 runs, E0 in 1 run; 2 hosts']]);
  });

  test('keeps apart the own part, what came after a step, what was set aside and what says nothing', () => {
    const setAside = [
      { run: 'x', effect: 'E4', why: 'bad donor' },
      { run: 'y', effect: 'E4', why: 'bad donor' },
    ] as const;
    expect(cellLines({ ...cell, own: { E0: 2 }, afterStep: { E0: 1 }, setAside, uncounted: ['z'] })).toEqual([
      'own part: E0 in 2 runs',
      'after a step: E0 in 1 run',
      'set aside: 2 runs (bad donor)',
      '1 run not told apart or hidden',
    ]);
  });
});

test('predecessorOn finds the record by its id, or by its product where only one is called so', () => {
  const item = (assessment: string, product: string) => ({ assessment, product });
  expect(predecessorOn([item('tarn-4', 'Tarn 4'), item('x', 'tarn-4')], 'tarn-4')).toBe('tarn-4');
  expect(predecessorOn([item('t4', 'Tarn 4'), item('t5', 'Tarn 5')], 'Tarn 4')).toBe('t4');
  expect(predecessorOn([item('t4', 'Tarn 4'), item('again', 'Tarn 4')], 'Tarn 4')).toBeUndefined();
  expect(predecessorOn([], 'Tarn 4')).toBeUndefined();
});

describe('cautions come before the run that calls for them', () => {
  const run = { ...newRun(1, 'c'), fits: [{ ...newFit('coil'), arm: 'cross' as const }] };
  const idsOf = (some: Partial<typeof run>) => runCautions(tarn, { ...run, ...some }).map(({ id }) => id);

  test('a specimen that is opened calls for those of the cell and of static', () => {
    expect(idsOf({})).toEqual(expect.arrayContaining(['lithium-cell', 'static']));
    expect(idsOf({ fits: [{ ...newFit('coil'), arm: 'baseline' } as never] })).not.toContain('static');
  });

  test('one that is started open has its own first', () => {
    expect(idsOf({ closed: 'no' })[0]).toBe('open-powered');
    expect(idsOf({ closed: 'yes' })).not.toContain('open-powered');
  });

  test('the charge of other specimens is not this run’s', () => {
    const text = runCautions(tarn, run).find(({ id }) => id === 'lithium-cell')?.text;
    expect(text).not.toContain('specimen e');
    const charged = { ...tarn, specimens: { ...tarn.specimens, c: { ...tarn.specimens?.c, charge: '80 %' } } };
    expect(runCautions(charged, run).find(({ id }) => id === 'lithium-cell')?.text).toContain('specimen c at 80 %');
  });
});
