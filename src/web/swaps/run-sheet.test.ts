import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { applyPatch } from '#record/patch/apply-patch';
import { readAssessment } from '#record/read/read-assessment';
import { type Assessment, assessment } from '#record/schema/assessment';
import { checkAssessment } from '#record/validate/check-assessment';
import { diagnosedSwaps } from '#verdict/swaps/diagnosed-swaps';
import {
  beginRun,
  chosenFit,
  likelyArm,
  pieceChosen,
  pieceOptions,
  runLines,
  runTitle,
  withFreeNumber,
} from './begin-run.ts';
import { draftOfSwaps } from './draft-of-swaps.ts';
import { nextRunNumber, recordedRuns } from './recorded-runs.ts';
import { type FitDraft, newFit, type RunDraft } from './run-draft.ts';
import { runFaults } from './run-faults.ts';
import { ruledOut, runPatch, withdrawalPatch } from './run-patch.ts';
import { swapOf } from './swaps-of-draft.ts';

const file = new URL('../../../examples/tarn-5/assessment.yaml', import.meta.url);
const tarn = readAssessment({ fileName: 'assessment.yaml', bytes: readFileSync(file) }).assessment as Assessment;
const beginning = { now: '2026-11-25T10:00:00+00:00', operator: 'K. L.' };
const random = () => 0.5;

const refused: Partial<FitDraft> = {
  effect: 'E5',
  checks: { starts: 'pass', 'charge-pad': 'fail', notice: 'fail' },
  notice: {
    wording: '<img src=x onerror=alert(1)> \u202eلا',
    where: 'on the pad',
    about: 'identity',
    misleading: 'yes',
    dismissible: 'no',
    returns: 'each time',
  },
  measured: [{ of: 'power on the pad', before: '5.1 ± 0.1 W', after: '0.3 W' }],
};

const cross = (some: Partial<FitDraft> = {}, more: Partial<RunDraft> = {}): RunDraft => {
  const run = { ...beginRun(tarn, 'c', beginning), on: beginning.now, closed: 'yes' as const, ...more };
  const choice = 'specimen:d';
  const piece = pieceChosen(tarn, 'coil', choice);
  const arm = likelyArm(tarn, { host: 'c', part: 'coil', choice, firmware: run.firmware });
  return { ...run, fits: [{ ...newFit('coil'), piece, arm, ...some }] };
};

const written = (document: Assessment, run: RunDraft, isBrokenOff = false): Assessment => {
  const applied = applyPatch(document, runPatch(document, run, { random, isBrokenOff }).patch);
  if (!applied.fits) throw new Error(applied.message);
  expect(assessment.safeParse(applied.document).error).toBeUndefined();
  return applied.document;
};

const newErrors = (document: Assessment): readonly unknown[] =>
  checkAssessment(document).filter(({ severity }) => severity === 'error');

describe('a run on the sheet becomes entries of the record', () => {
  test('with everything that was said, word for word, and nothing else', () => {
    const run = cross(refused, { charge: '30 %', soak: '2 min', evidence: ['swap-sheet'], settled: 'yes' });
    const after = written(tarn, run);
    const [id] = Object.keys(after.swaps ?? {}).filter((key) => !tarn.swaps?.[key]);
    expect(id).toBe(`r${run.run}-coil-i000`);
    expect(after.swaps?.[id ?? '']).toEqual({
      specimen: 'c',
      part: 'coil',
      fitted: 'foreign',
      donor: { kind: 'used-genuine', specimen: 'd', revision: 'R2', homeLock: 'none' },
      arm: 'cross',
      run: nextRunNumber(tarn),
      on: beginning.now,
      operator: 'K. L.',
      firmware: '5.1.0',
      effect: 'E5',
      checks: refused.checks,
      notice: {
        wording: '<img src=x onerror=alert(1)> \u202eلا',
        where: 'on the pad',
        about: 'identity',
        misleading: true,
        dismissible: false,
        returns: 'each time',
      },
      measured: refused.measured,
      network: true,
      closed: true,
      charge: '30 %',
      soak: '2 min',
      settled: true,
      evidence: ['swap-sheet'],
    });
    expect(newErrors(after)).toEqual([]);
  });

  test('the diagnosis takes it in', () => {
    const runsOf = (document: Assessment) => diagnosedSwaps(document).runs.get('coil') ?? [];
    const after = written(tarn, cross(refused));
    expect(runsOf(after)).toHaveLength(runsOf(tarn).length + 1);
    expect(runsOf(after).at(-1)).toMatchObject({ host: 'c', isOwn: false, effect: 'E5', outcome: 'failed' });
  });

  test('a piece from elsewhere is listed at hand, a changed function list is kept for the next run', () => {
    const piece = { choice: 'other', kind: 'compatible', item: 'coil-x', revision: '', homeLock: 'unknown' } as const;
    const added = [{ key: 'pad-warm', name: 'pad stays cool' }];
    const run = cross({ ...refused, piece, addedChecks: added, leftOutChecks: ['notice'] });
    const after = written(tarn, run);
    expect(after.swapBench?.donors?.['coil-x']).toEqual({ part: 'coil', kind: 'compatible' });
    expect(after.swapBench?.checks?.['pad-warm']).toEqual({ name: 'pad stays cool' });
    expect(after.swapBench?.parts?.coil?.checks).toEqual(['starts', 'charge-pad', 'pad-warm']);
    expect(newErrors(after)).toEqual([]);
  });

  test('a record without swaps or bench takes its first run', () => {
    const bare: Assessment = {
      format: 'unfasten/assessment',
      version: 1,
      product: { name: 'Tarn 5' },
      specimens: { a: {} },
      parts: { cell: { role: 'battery' } },
    };
    const run = beginRun(bare, 'a', { now: beginning.now, operator: '' });
    const fit = { ...chosenFit(bare, run, 'cell'), effect: 'E0' as const };
    expect(fit.arm).toBe('baseline');
    expect(written(bare, { ...run, fits: [fit] }).swaps).toEqual({
      'r01-cell-i000': { specimen: 'a', part: 'cell', fitted: 'own', arm: 'baseline', run: 1, effect: 'E0' },
    });
  });
});

describe('a run is corrected, broken off and gone on with', () => {
  test('every run of the example comes back from the sheet as it is on record', () => {
    for (const { fits } of recordedRuns(tarn))
      for (const fit of fits) {
        const [id, swap] = fit;
        const draft = draftOfSwaps(tarn, [fit]);
        const [again] = draft?.fits ?? [];
        if (!draft || !again) throw new Error(id);
        const { corrects, ...back } = swapOf(draft, again, swap);
        const { corrects: _, interrupted: __, ...before } = swap;
        expect(corrects).toBe(id);
        expect(back).toEqual({ fitted: 'own', ...before });
      }
  });

  test('a correction is a new entry; the old one stays, and the new one stands', () => {
    const first = written(tarn, cross(refused));
    const run = recordedRuns(first).at(-1);
    const draft = run && draftOfSwaps(first, run.fits);
    const [fit] = draft?.fits ?? [];
    if (!draft || !fit) throw new Error('no draft');
    const corrected = { ...draft, fits: [{ ...fit, effect: 'E4' as const }] };
    const after = applyPatch(first, runPatch(first, corrected, { random: () => 0.25 }).patch);
    if (!after.fits) throw new Error(after.message);
    const id = run?.fits[0]?.[0] ?? '';
    expect(after.document.swaps?.[id]).toEqual(first.swaps?.[id]);
    expect(recordedRuns(after.document).at(-1)?.fits).toMatchObject([
      [expect.any(String), { effect: 'E4', corrects: id }],
    ]);
    expect(newErrors(after.document)).toEqual([]);
  });

  test('a run broken off needs no effect, waits, and is whole once gone on with', () => {
    expect(runFaults(cross(), true)).toEqual([]);
    const broken = written(tarn, cross(), true);
    const waiting = recordedRuns(broken).at(-1);
    expect(waiting).toMatchObject({ isBrokenOff: true });
    const draft = waiting && draftOfSwaps(broken, waiting.fits);
    const [fit] = draft?.fits ?? [];
    if (!draft || !fit) throw new Error('no draft');
    const whole = { ...draft, fits: [{ ...fit, effect: 'E0' as const }] };
    const after = applyPatch(broken, runPatch(broken, whole, { random: () => 0.25 }).patch);
    expect(after.fits && recordedRuns(after.document).at(-1)).toMatchObject({ isBrokenOff: false, run: draft.run });
  });

  test('a withdrawn run stands no more and gives its number to none', () => {
    const first = written(tarn, cross(refused));
    const [id = ''] = recordedRuns(first).at(-1)?.fits[0] ?? [];
    const patch = withdrawalPatch(first, [id], { random: () => 0.25, on: beginning.now, operator: '' });
    const after = applyPatch(first, patch);
    if (!after.fits) throw new Error(after.message);
    expect(recordedRuns(after.document)).toEqual(recordedRuns(tarn));
    expect(nextRunNumber(after.document)).toBe(nextRunNumber(tarn) + 1);
    expect(newErrors(after.document)).toEqual([]);
  });
});

describe('what stands in the way is said', () => {
  const fieldsOf = (run: RunDraft) => runFaults(run).map(({ field }) => field);

  test.each<[string, RunDraft, readonly string[]]>([
    ['nothing said of the effect', cross(), ['effect']],
    ['all said', cross(refused), []],
    ['no part', { ...cross(), fits: [] }, ['fits']],
    ['E0 with a failed check', cross({ effect: 'E0', checks: { starts: 'fail' } }), ['effect']],
    ['E0 with a notice', cross({ ...refused, effect: 'E0', checks: {} }), ['effect']],
    ['charge in hours', cross(refused, { charge: '2 h' }), ['charge']],
    ['no unit', cross({ ...refused, measured: [{ of: 'x', before: '5', after: '' }] }), ['before-0']],
    ['unlike units', cross({ ...refused, measured: [{ of: 'x', before: '5 W', after: '1 s' }] }), ['after-0']],
    ['nothing measured named', cross({ ...refused, measured: [{ of: '', before: '5 W', after: '' }] }), ['of-0']],
    ['soak in watts', cross(refused, { soak: '2 W' }), ['soak']],
    [
      'more starts failed than tried',
      cross({ effect: 'E6', starts: { tried: '2', failed: '3', after: '' } }),
      ['failed'],
    ],
    ['hidden by another part', cross({ masked: true }), []],
    ['a piece without a name', cross({ ...refused, piece: pieceChosen(tarn, 'coil', 'other') }), ['item']],
  ])('%s', (_, run, fields) => {
    expect(fieldsOf(run)).toEqual(fields);
  });

  test('a number that another window took meanwhile gives way to the next, that of a correction stays', () => {
    const run = cross();
    const taken = written(tarn, { ...run, host: 'd', fits: [newFit('battery')] });
    expect(withFreeNumber(tarn, run)).toBe(run);
    expect(withFreeNumber(taken, run)).toEqual({ ...run, run: run.run + 1 });
    const correcting = { ...run, run: 6, fits: [{ ...newFit('rear-camera'), corrects: 'a-cross' }] };
    expect(withFreeNumber(taken, correcting)).toBe(correcting);
  });

  test('a control character is said by its code, at its field', () => {
    expect(runFaults({ ...cross({ ...refused, note: 'a\u001b[31m' }), account: 'tab\t and line end\n' })).toEqual([
      { fit: 0, field: 'note', words: 'Here is the control character U+001B, which no record holds: take it out.' },
    ]);
  });

  test('a text of 10,000 characters is taken, a longer one is said and kept', () => {
    const withNote = (length: number) => cross({ ...refused, note: 'x'.repeat(length) });
    expect(fieldsOf(withNote(10_000))).toEqual([]);
    expect(runFaults(withNote(12_345)).map(({ words }) => words)).toEqual([
      'The record takes 10,000 characters in one field; here are 12,345. Nothing is cut: shorten it, or put it into a file among the evidence.',
    ]);
  });

  test("what the record's own rules forbid is said before it is sent", () => {
    const { patch } = runPatch(tarn, cross(refused, { firmware: '5.0.1' }), { random });
    expect(ruledOut(tarn, patch)).toContain('a firmware does not go back');
    expect(ruledOut(tarn, runPatch(tarn, cross(refused), { random }).patch)).toBeUndefined();
  });
});

test('likelyArm follows what was fitted in the host before', () => {
  const arm = (choice: Parameters<typeof likelyArm>[1]['choice'], part = 'coil', host = 'c') =>
    likelyArm(tarn, { host, part, choice, firmware: '5.1.0' });
  expect(arm('own', 'ear-speaker')).toBe('baseline');
  expect(arm('own')).toBe('refit-control');
  expect(arm('specimen:d')).toBe('cross');
  const after = written(tarn, cross(refused));
  const then = (choice: 'own' | 'specimen:d') =>
    likelyArm(after, { host: 'c', part: 'coil', choice, firmware: '5.1.0' });
  expect(then('own')).toBe('swap-back');
  expect(then('specimen:d')).toBe('replicate');
  expect(likelyArm(after, { host: 'c', part: 'coil', choice: 'specimen:d', firmware: '5.2.0' })).toBe('firmware');
});

test('pieceOptions offer the own part, those of other specimens and what is listed for the place', () => {
  expect(pieceOptions(tarn, { host: 'c', part: 'front-camera' }).map(({ value }) => value)).toEqual([
    'own',
    'specimen:a',
    'specimen:b',
    'specimen:d',
    'specimen:e',
    'donor:cam-e',
    'donor:cam-f',
    'other',
  ]);
});

test('runLines say what is to be done, parts of which the same is done in one line', () => {
  const run = cross();
  const [fit] = run.fits;
  if (!fit) throw new Error('no fit');
  const own = { ...fit, piece: pieceChosen(tarn, 'coil', 'own') };
  const lines = (...fits: readonly FitDraft[]) => runLines(tarn, { ...run, fits });
  expect(lines(fit, { ...fit, part: 'battery' })).toEqual(['Charging coil, Battery: from Specimen D into Specimen C.']);
  expect(lines({ ...own, arm: 'swap-back' }, { ...own, arm: 'refit-control', part: 'battery' })).toEqual([
    'Charging coil: the own one back into Specimen C.',
    'Battery: the own one out of Specimen C and in again.',
  ]);
  expect(lines({ ...fit, arm: 'authorised' })).toEqual([
    'Charging coil: from Specimen D into Specimen C; then take the step that makes the part known.',
  ]);
  const after = written(tarn, cross(refused));
  expect(runLines(after, { ...run, fits: [{ ...fit, arm: 'authorised' }] })).toEqual([
    'Charging coil: left as fitted in Specimen C; then take the step that makes the part known.',
  ]);
  expect(lines({ ...fit, stays: true, arm: 'replicate' })).toEqual([
    'Charging coil: left as fitted in Specimen C; look again.',
  ]);
});

test('runTitle names the firmware, and that the specimen is brought to it first', () => {
  expect(runTitle(tarn, cross())).toBe(`Run ${nextRunNumber(tarn)}: Specimen C, firmware 5.1.0`);
  expect(runTitle(tarn, cross({}, { firmware: '5.2.0' }))).toMatch(/Specimen C, updated to firmware 5\.2\.0$/);
});
