import { expect, test } from 'vitest';
import { impuritiesIn } from './impurities.ts';
import { undocumentedExports } from './undocumented-exports.ts';

test('impuritiesIn finds clocks, chance and locale, but not in comments, strings or dated constructors', () => {
  const source = [
    'const a = Date.now();',
    'const b = new Date();',
    "const c = new Date('2026-01-01'); // Date.now",
    "const d = 'Math.random';",
    'const e = Math.random() + x.toLocaleString();',
    'names.sort((a, b) => a.localeCompare(b));',
  ].join('\n');
  expect(impuritiesIn(source).map(({ line, found }) => [line, found])).toEqual([
    [1, 'Date.now'],
    [2, 'new Date()'],
    [5, 'Math.random'],
    [5, '.toLocaleString('],
    [6, '.localeCompare('],
  ]);
});

test('undocumentedExports names every exported declaration without a docstring directly above', () => {
  const source = [
    '/** Says so. */',
    'export const a = 1;',
    'export function b(): void;',
    '',
    '/** Far away. */',
    '',
    'export interface C {}',
    '/**',
    ' * Long.',
    ' */',
    'export async function d(x: 1): void;',
    'export async function d(x: 2): void;',
    "export type { E } from './e.ts';",
    '// export const f = 1;',
  ].join('\n');
  expect(undocumentedExports(source).map(({ name }) => name)).toEqual(['b', 'C']);
});
