// Runs in this process, so that the sources are tested, not a bundle.
import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import type { Assessment } from '#record/schema/assessment';
import { PRIORITY_ROLES } from '#schemes/eu-2023-1669/input';
import { scoreSheetX } from '../records/score-sheet-x.ts';
import { runInProcess } from './run-in-process.ts';

const example = (name: string): string => fileURLToPath(new URL(`../../examples/${name}`, import.meta.url));

const fileOf = (record: Assessment): string => {
  const path = join(mkdtempSync(join(tmpdir(), 'unfasten-')), 'assessment.json');
  writeFileSync(path, JSON.stringify(record));
  return path;
};

const indexOf = async (path: string) => {
  const { code, out } = await runInProcess(['index', path, '--json']);
  return { code, answer: JSON.parse(out) };
};

const FORM = ['R', 'classUnrounded', 'classRounded', 'scores', 'parts', 'notScorable'];
const SCORES = ['SDD', 'SF', 'ST', 'SSP', 'SSU', 'SRI'];
const NINE = PRIORITY_ROLES.filter((role) => role !== 'hinge');

describe('unfasten index --json, the shape', () => {
  it('tarn-5 has scheme, consolidation date and three bases of one form, whole forms for low and high', async () => {
    const { code, answer } = await indexOf(example('tarn-5'));
    expect(code).toBe(0);
    expect(Object.keys(answer)).toEqual(['scheme', 'consolidated', 'bases']);
    expect(answer.consolidated).toBe('2026-05-10');
    expect(Object.keys(answer.bases)).toEqual(['declared', 'observed', 'best']);
    for (const basis of Object.values<Record<string, object>>(answer.bases))
      for (const form of [basis, basis.low, basis.high] as Record<string, object>[]) {
        expect(Object.keys(form).slice(0, FORM.length)).toEqual(FORM);
        expect(Object.keys(form.scores ?? {})).toEqual(SCORES);
        expect(Object.keys(form.parts ?? {})).toEqual(NINE);
        for (const part of Object.values(form.parts ?? {}))
          expect(Object.keys(part)).toEqual(['steps', 'DD', 'F', 'T']);
      }
  });

  it('an open fact leaves null what needs it, and numbers in low and high', async () => {
    const { answer } = await indexOf(example('tarn-5'));
    const { best } = answer.bases;
    expect([best.R, best.parts['rear-camera'].steps, best.parts['rear-camera'].F]).toEqual([null, null, 5]);
    expect([best.low.parts['rear-camera'].steps, best.high.parts['rear-camera'].steps]).toEqual([13, 8]);
    expect(Number(best.low.R)).toBeLessThan(Number(best.high.R));
  });

  it('gust-2 is out of scope: code 1, and nothing but the reason and the article', async () => {
    const { code, answer } = await indexOf(example('gust-2'));
    expect(code).toBe(1);
    expect(Object.keys(answer)).toEqual(['outOfScope', 'article']);
    expect(answer.article).toMatch(/Article/);
  });

  it('an open scope is named with what is missing and why, and the index follows for the case that it is in', async () => {
    const { code, answer } = await indexOf(example('quick-log'));
    expect([code, Object.keys(answer)]).toEqual([0, ['scheme', 'consolidated', 'scope', 'bases']]);
    const why = 'not recorded, and the scope hangs on it';
    expect(answer.scope).toEqual({
      inScope: 'open',
      missing: [
        ['rollableMainDisplay', 'whether the main display can be rolled up'],
        ['highSecurity', 'whether it is a high-security smartphone'],
      ].map(([field, what]) => ({ address: `product/${field}`, what, why, remedy: `record product/${field}` })),
    });
    const { out } = await runInProcess(['index', example('quick-log')]);
    expect(out).toMatch(
      /^Scope open: .*\n {2}whether the main display can be rolled up: not recorded.*\n {2}whether it is a high-sec.*\n\n/,
    );
  });

  it('documents of the maker that contradict each other are named, in JSON and in words', async () => {
    const record: Assessment = {
      ...scoreSheetX(),
      parts: { battery: { role: 'battery', serialised: false } },
      procedures: { p: { for: 'battery', steps: [{ do: 'lift', tools: [], free: ['battery'] }] } },
    };
    const { answer } = await indexOf(fileOf(record));
    const text =
      'the score sheet declares 8 steps for the battery, procedures/p gives 1 step; what the procedures give is used';
    expect(answer.contradictions).toEqual([{ path: 'product/scoreSheet/parts/battery/steps', text }]);
    expect((await runInProcess(['index', fileOf(record)])).out).toContain(
      `The maker's documents contradict each other:\n  product/scoreSheet/parts/battery/steps: ${text}\n`,
    );
  });

  it('gives the same bytes twice', async () => {
    const [first, second] = [
      await runInProcess(['index', example('tarn-4'), '--json']),
      await runInProcess(['index', example('tarn-4'), '--json']),
    ];
    expect(first.out).toBe(second.out);
  });
});

const line = (steps: number, fastener: string, tool: string) => ({ steps, fastener, tool });
const foldable = { foldingDisplay: true, hinge: true };

// The constructed device X and its vectors; figures as the arithmetic of Annex IV point 5 gives them.
describe('unfasten index on records that hold a score sheet only', () => {
  it.each([
    ['V0', scoreSheetX(), ['2.60', '3.50', '3.40', '3.3350', 'C', 'C']],
    [
      'V1, two remote actions',
      scoreSheetX({ parts: { battery: { ...line(8, 'resupplied', 'basic'), remoteActions: 2 } } }),
      ['2.00', '3.50', '3.40', '3.1850', 'C', 'C'],
    ],
    [
      'V2, the same as one',
      scoreSheetX({
        parts: { battery: { ...line(8, 'resupplied', 'basic'), remoteActions: 2 } },
        interpretations: { 'remote-pairing': { value: 'one-action' } },
      }),
      ['2.30', '3.50', '3.40', '3.2600', 'C', 'C'],
    ],
    [
      'V3, rear camera in 5',
      scoreSheetX({ parts: { 'rear-camera': line(5, 'reusable', 'basic') } }),
      ['2.65', '3.50', '3.40', '3.3475', 'C', 'B'],
    ],
    [
      'V4, no front camera',
      scoreSheetX({ parts: { 'front-camera': { absent: true } } }),
      ['2.70', '3.50', '3.45', '3.3675', 'B', 'B'],
    ],
    [
      'V5, foldable',
      scoreSheetX({
        foldable,
        endUsers: ['display', 'battery'],
        parts: { display: line(16, 'resupplied', 'with-spare'), hinge: line(19, 'removable', 'commercial') },
      }),
      ['2.09', '3.06', '2.97', '2.9270', 'C', 'C'],
    ],
    [
      'V6, all 1',
      scoreSheetX({
        all: line(16, 'removable', 'commercial'),
        endUsers: ['display'],
        years: 5,
        information: { endUsers: 'not-offered', professionals: 'reasonable-fee' },
      }),
      ['1.00', '1.00', '1.00', '1.0000', 'E', 'E'],
    ],
    [
      'V6, all 5',
      scoreSheetX({
        all: line(2, 'reusable', 'none'),
        endUsers: [...PRIORITY_ROLES],
        information: { endUsers: 'free', professionals: 'free' },
      }),
      ['5.00', '5.00', '5.00', '5.0000', 'A', 'A'],
    ],
  ])('%s', async (_name, record, expected) => {
    const { code, answer } = await indexOf(fileOf(record));
    expect([code, Object.keys(answer.bases)]).toEqual([0, ['declared']]);
    const { scores, R, classUnrounded, classRounded, low } = answer.bases.declared;
    expect([scores.SDD, scores.SF, scores.ST, R, classUnrounded, classRounded]).toEqual(expected);
    expect(low).toBeUndefined();
  });
});

describe('unfasten index, what is not said', () => {
  it('leaves the weights open where nothing says whether the product folds', async () => {
    const record = scoreSheetX({});
    const { foldable: _said, ...product } = record.product;
    const { code, answer } = await indexOf(fileOf({ ...record, product }));
    expect(code).toBe(0);
    expect(answer.bases.declared.R).toBeNull();
    expect(Number(answer.bases.declared.low.R)).toBeLessThan(3.335);
  });

  it.each([
    [{ rounding: { value: 'maybe' } }, 'interpretations/rounding/value'],
    [{ roundig: { value: 'rounded' } }, 'interpretations/roundig'],
  ])('refuses the interpretation %j instead of taking the default unseen', async (interpretations, path) => {
    const file = fileOf({ ...scoreSheetX({}), interpretations });
    const { code, out } = await runInProcess(['check', file, '--json']);
    expect(code).toBe(1);
    expect(JSON.parse(out).problems).toEqual([expect.objectContaining({ path, severity: 'error' })]);
    expect((await runInProcess(['index', file])).code).toBe(1);
  });
});
