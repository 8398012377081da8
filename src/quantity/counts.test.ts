import { expect, test } from 'vitest';
import { counted, listed, sentence, stretch } from './counts.ts';

test('counted, stretch, listed and sentence read as a person would write', () => {
  expect([counted(1, 'step'), counted(2, 'step'), counted(2, 'piece of evidence', 'pieces of evidence')]).toEqual([
    '1 step',
    '2 steps',
    '2 pieces of evidence',
  ]);
  expect([stretch(8, 12), stretch('3.1', '3.1')]).toEqual(['8–12', '3.1']);
  expect([listed([]), listed(['a']), listed(['a', 'b']), listed(['a', 'b', 'c'], 'or')]).toEqual([
    '',
    'a',
    'a and b',
    'a, b or c',
  ]);
  expect(sentence('the back cover')).toBe('The back cover');
});
