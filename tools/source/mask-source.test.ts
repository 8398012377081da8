import { expect, test } from 'vitest';
import { maskSource } from './mask-source.ts';

test('maskSource blanks comments, keeps line breaks and leaves comment signs inside strings alone', () => {
  const source = "const a = 'x // y'; // gone\n/* gone\n*/ const b = 1;";
  expect(maskSource(source, { strings: false })).toBe("const a = 'x // y';        \n       \n   const b = 1;");
});

test('maskSource tells a regular expression from a division', () => {
  const source = 'const r = /[/*"]/; const q = (a / b) / 2; // gone';
  expect(maskSource(source, { strings: false }).trimEnd()).toBe('const r = /[/*"]/; const q = (a / b) / 2;');
});

test('maskSource blanks strings and templates when asked, escapes included', () => {
  const source = 'f("a\\"b", `c`, \'d\');';
  expect(maskSource(source, { strings: true })).toBe('f("    ", ` `, \' \');');
});
