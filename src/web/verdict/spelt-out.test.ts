import { expect, test } from 'vitest';
import { speltOut } from './spelt-out.ts';

const LONG = 'x'.repeat(200);
const answers = (...all: string[]) => all.map((says) => ({ says }));

test('speltOut names all of few short answers', () => {
  expect(speltOut(answers('six years', 'five years'))).toBe('six years; or five years');
  expect(speltOut(answers('a', 'b', 'c', 'd'))).toBe('a; or b; or c; or d');
});

test('speltOut counts what is beyond four answers, or beyond the length of a line', () => {
  expect(speltOut(answers('a', 'b', 'c', 'd', 'e'))).toBe('a; or b; or c; or d; or 1 more');
  expect(speltOut(answers('a', LONG, 'c'))).toBe('a; or 2 more');
});

test('speltOut names the first answer, however long', () => {
  expect(speltOut(answers(LONG))).toBe(LONG);
  expect(speltOut(answers(LONG, LONG))).toBe(`${LONG}; or 1 more`);
});
