import { expect, test } from 'vitest';
import { applyPatch } from '#record/patch/apply-patch';
import type { Patch } from '#record/patch/operation';
import type { Assessment } from '#record/schema/assessment';
import { fittedPatch, takenBackPatch } from './answer-changes.ts';

const bare = { format: 'unfasten/assessment', version: 1, product: { name: 'Tarn 5' } } as Assessment;
const years = (count: number): Patch => [
  { op: 'add', path: '/supply', value: {} },
  { op: 'add', path: '/supply/software', value: {} },
  { op: 'add', path: '/supply/software/security', value: { years: count, standing: 'established' } },
];
const corrective: Patch = [
  { op: 'add', path: '/supply', value: {} },
  { op: 'add', path: '/supply/software', value: { corrective: { years: 7 } } },
];

const after = (document: Assessment, patch: Patch | undefined): Assessment => {
  const applied = applyPatch(document, patch ?? []);
  if (!applied.fits) throw new Error(applied.message);
  return applied.document;
};

test('fittedPatch leaves out the maps that are there by now, so that what others wrote in them stays', () => {
  const newer = after(bare, corrective);
  const fitted = fittedPatch(years(7), bare, newer);
  expect(fitted?.map(({ path }) => path)).toEqual(['/supply/software/security']);
  expect(after(newer, fitted).supply?.software).toEqual({
    corrective: { years: 7 },
    security: { years: 7, standing: 'established' },
  });
  expect(fittedPatch(years(7), bare, bare)).toEqual(years(7));
});

test('fittedPatch gives nothing where the place was written since', () => {
  expect(fittedPatch(years(7), bare, after(bare, years(6)))).toBeUndefined();
});

test('takenBackPatch brings back what stood there, and what others wrote meanwhile stays', () => {
  const six = after(bare, years(6));
  const [, , seven] = years(7);
  const patch = seven ? [seven] : [];
  const answered = after(six, patch);
  const meanwhile = after(answered, [{ op: 'add', path: '/supply/software/corrective', value: { years: 5 } }]);
  expect(after(meanwhile, takenBackPatch(six, meanwhile, patch)).supply?.software).toEqual({
    security: { years: 6, standing: 'established' },
    corrective: { years: 5 },
  });
  const first = after(bare, years(7));
  expect(after(first, takenBackPatch(bare, first, years(7))).supply).toEqual({ software: {} });
});

test('takenBackPatch gives nothing where the answer itself was changed since', () => {
  expect(takenBackPatch(bare, after(bare, years(6)), years(7))).toBeUndefined();
});
