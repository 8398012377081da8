import { expect, test } from 'vitest';
import { isDeeperThan } from './body-depth.ts';

const deeper = (text: string) => isDeeperThan(new TextEncoder().encode(text), 2);

test.each([
  ['[[1],{"a":2}]', false],
  ['[[[1]]]', true],
  ['{"a":{"b":[]}}', true],
  ['["[[[[", "\\"[[[", "\\\\", [1], []]', false],
  ['["\\\\", [[]]]', true],
  ['', false],
  [']]][[[[', false],
])('isDeeperThan two levels of %s: %s', (text, expected) => {
  expect(deeper(text)).toBe(expected);
});
