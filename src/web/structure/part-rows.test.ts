import { expect, test } from 'vitest';
import { type Asked, nextUnanswered } from './part-rows.ts';

const row = (subject: string, isAnswered: boolean): Asked => ({ subject, isAnswered });
const rows = [row('a', false), row('b', true), row('c', false), row('d', true)];

test('the next part without an answer follows the one asked, going round, and is never that one again', () => {
  expect(nextUnanswered(rows, undefined)).toBe('a');
  expect(nextUnanswered(rows, 'a')).toBe('c');
  expect(nextUnanswered(rows, 'c')).toBe('a');
  expect(nextUnanswered([row('a', false), row('b', true)], 'a')).toBeUndefined();
});
