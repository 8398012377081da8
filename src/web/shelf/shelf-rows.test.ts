import { expect, test } from 'vitest';
import { shelfRows } from './shelf-rows.ts';

const item = (assessment: string, product: string, changed: string) => ({
  assessment,
  product,
  changed,
  state: 'prepared' as const,
  category: 'smartphone',
  invented: true,
  revision: 1,
});
const items = [
  item('b', 'Tarn 5', '2026-11-02T10:00:00Z'),
  item('a', 'Tarn 5', '2026-11-01T10:00:00Z'),
  item('c', 'Béck 11', '2026-11-03T12:00:00+05:00'),
];
const keys = (rows: readonly { readonly assessment: string }[]) => rows.map(({ assessment }) => assessment);

test('shelfRows finds every word in any case and with any accent', () => {
  expect(keys(shelfRows(items, { search: 'BECK  smart', order: 'product', descending: false }))).toEqual(['c']);
  expect(keys(shelfRows(items, { search: 'tarn beck', order: 'product', descending: false }))).toEqual([]);
});

test('shelfRows orders by moment whatever its offset, and like products by id both ways', () => {
  expect(keys(shelfRows(items, { search: '', order: 'changed', descending: true }))).toEqual(['c', 'b', 'a']);
  expect(keys(shelfRows(items, { search: '', order: 'product', descending: true }))).toEqual(['a', 'b', 'c']);
});
