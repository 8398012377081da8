import { expect, test } from 'vitest';
import type { Assessment } from '#record/schema/assessment';
import { forgetReadingPatch, readingPatch } from './reading-patch.ts';

const bare = { format: 'unfasten/assessment', version: 1, product: { name: 'Tarn 5' } } as Assessment;
const chosen = {
  ...bare,
  interpretations: { rounding: { value: 'two-decimals', reason: 'as printed' } },
} as Assessment;

test('readingPatch makes the map where the record has none, and adds to it where it has one', () => {
  const choice = { id: 'stretch', value: 'yes', reason: '  ' };
  expect(readingPatch(bare, choice)).toEqual([
    { op: 'add', path: '/interpretations', value: { stretch: { value: 'yes' } } },
  ]);
  expect(readingPatch(chosen, choice)).toEqual([
    { op: 'add', path: '/interpretations/stretch', value: { value: 'yes' } },
  ]);
});

test('readingPatch tests what stood there before it is replaced, and changes nothing twice', () => {
  expect(readingPatch(chosen, { id: 'rounding', value: 'unrounded', reason: 'the law says R' })).toEqual([
    { op: 'test', path: '/interpretations/rounding', value: { value: 'two-decimals', reason: 'as printed' } },
    { op: 'replace', path: '/interpretations/rounding', value: { value: 'unrounded', reason: 'the law says R' } },
  ]);
  expect(readingPatch(chosen, { id: 'rounding', value: 'two-decimals', reason: 'as printed ' })).toBeUndefined();
});

test('forgetReadingPatch takes back the very choice that was seen, and nothing where there is none', () => {
  expect(forgetReadingPatch(chosen, 'rounding')).toEqual([
    { op: 'test', path: '/interpretations/rounding', value: { value: 'two-decimals', reason: 'as printed' } },
    { op: 'remove', path: '/interpretations/rounding' },
  ]);
  expect([forgetReadingPatch(chosen, 'stretch'), forgetReadingPatch(bare, 'rounding')]).toEqual([undefined, undefined]);
});
