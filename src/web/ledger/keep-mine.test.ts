import { expect, test } from 'vitest';
import type { Assessment } from '#record/schema/assessment';
import { keepMinePatch } from './keep-mine.ts';

const document = {
  format: 'unfasten/assessment',
  version: 1,
  product: { name: 'Tarn 5' },
  evidence: { theirs: { kind: 'photo' } },
} as Assessment;

test('keepMinePatch leaves what others put into a map that both opened', () => {
  const mine = { op: 'add', path: '/evidence/mine', value: { kind: 'video' } } as const;
  expect(keepMinePatch(document, [{ op: 'add', path: '/evidence', value: {} }, mine])).toEqual([mine]);
});

test('keepMinePatch opens the map where there is none any more', () => {
  const { evidence: _, ...without } = document;
  const opened = { op: 'add', path: '/evidence', value: {} } as const;
  const mine = { op: 'add', path: '/evidence/mine', value: { kind: 'video' } } as const;
  expect(keepMinePatch(without, [opened, mine])).toEqual([opened, mine]);
  expect(keepMinePatch(without, [mine])).toBe(undefined);
});

test('keepMinePatch writes over what stands there, and tests nothing', () => {
  const test = { op: 'test', path: '/product/name', value: 'Tarn 4' } as const;
  const mine = { op: 'replace', path: '/product/name', value: 'Tarn 6' } as const;
  expect(keepMinePatch(document, [test, mine])).toEqual([{ op: 'add', path: '/product/name', value: 'Tarn 6' }]);
});
