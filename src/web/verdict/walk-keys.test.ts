import { expect, test } from 'vitest';
import { walkMove } from './walk-keys.ts';

const lines = [
  { depth: 0, isOpen: true, opens: true },
  { depth: 1, isOpen: false, opens: true },
  { depth: 1, isOpen: true, opens: true },
  { depth: 2, isOpen: false, opens: true },
];

test('up, down, Home and End go along the lines and stop at the ends', () => {
  expect(['ArrowUp', 'ArrowDown', 'Home', 'End'].map((key) => walkMove(key, lines, 0))).toEqual([
    { to: 0 },
    { to: 1 },
    { to: 0 },
    { to: 3 },
  ]);
  expect(walkMove('ArrowDown', lines, 3)).toEqual({ to: 3 });
});

test('right opens and goes in, left folds and goes out', () => {
  expect(walkMove('ArrowRight', lines, 1)).toEqual({ toggle: true });
  expect(walkMove('ArrowRight', lines, 2)).toEqual({ to: 3 });
  expect(walkMove('ArrowLeft', lines, 2)).toEqual({ toggle: true });
  expect(walkMove('ArrowLeft', lines, 3)).toEqual({ to: 2 });
  expect(walkMove('ArrowLeft', lines, 1)).toEqual({ to: 0 });
  expect(walkMove('x', lines, 1)).toBeUndefined();
});
