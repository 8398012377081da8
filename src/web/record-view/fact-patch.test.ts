import { expect, test } from 'vitest';
import type { Assessment } from '#record/schema/assessment';
import { factPatch } from './fact-patch.ts';

const document = {
  format: 'unfasten/assessment',
  version: 1,
  product: { name: 'Tarn 5', maker: 'Fellside' },
} as Assessment;

test('factPatch adds what was not known, replaces or removes what was, and tests what it saw', () => {
  expect(factPatch(document, '/product/model', ' FS-T5 ')).toEqual([
    { op: 'add', path: '/product/model', value: 'FS-T5' },
  ]);
  const seen = { op: 'test', path: '/product/maker', value: 'Fellside' };
  expect(factPatch(document, '/product/maker', 'Other')).toEqual([
    seen,
    { op: 'replace', path: '/product/maker', value: 'Other' },
  ]);
  expect(factPatch(document, '/product/maker', '  ')).toEqual([seen, { op: 'remove', path: '/product/maker' }]);
});

test('factPatch changes nothing where nothing changes', () => {
  expect(factPatch(document, '/product/maker', 'Fellside ')).toBeUndefined();
  expect(factPatch(document, '/product/model', '')).toBeUndefined();
});
