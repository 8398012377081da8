import { expect, test } from 'vitest';
import type { Operation } from '#record/patch/operation';
import type { Assessment } from '#record/schema/assessment';
import { seedRecord } from '../../../test/faults/seed-record.ts';
import { applyPatch } from '../patch/apply-patch.ts';
import { shelfAfter, shelfColumns } from './shelf-entry.ts';

test.each<[string, readonly Operation[]]>([
  ['the title', [{ op: 'replace', path: '/title', value: 'Other' }]],
  ['the title removed', [{ op: 'remove', path: '/title' }]],
  ['the product', [{ op: 'replace', path: '/product/name', value: 'Tarn 6' }]],
  ['the category', [{ op: 'remove', path: '/product/category' }]],
  ['an entry added', [{ op: 'add', path: '/sessions/x1/entries/e9', value: { at: 1 } }]],
  [
    'all entries taken away',
    [
      { op: 'replace', path: '/sessions/x1/entries', value: {} },
      { op: 'replace', path: '/sessions/x2/entries', value: {} },
    ],
  ],
  ['the sessions removed', [{ op: 'remove', path: '/sessions' }]],
  ['the sessions moved', [{ op: 'move', from: '/sessions', path: '/elsewhere' }]],
  ['a part', [{ op: 'remove', path: '/parts/cell' }]],
])('the shelf after a patch shows what the document shows: %s', (_, patch) => {
  const before = seedRecord() as unknown as Assessment;
  const document = applyPatch(before, patch).document as Assessment;
  expect(shelfAfter(shelfColumns(before), document, patch)).toEqual(shelfColumns(document));
});
