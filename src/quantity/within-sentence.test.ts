import { expect, test } from 'vitest';
import { withinSentence } from './within-sentence.ts';

test.each([
  ['Parts and papers come as the maker says', 'parts and papers come as the maker says'],
  ['A kit holds what is listed', 'a kit holds what is listed'],
  ['EU law is kept', 'EU law is kept'],
  ['R. M. is right', 'R. M. is right'],
  ['3 years of updates', '3 years of updates'],
  ['', ''],
])('withinSentence of "%s" is "%s"', (phrase, inside) => {
  expect(withinSentence(phrase)).toBe(inside);
});
