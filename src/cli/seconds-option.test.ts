import { expect, test } from 'vitest';
import { defaultSeconds, parseSeconds, secondsOption } from './seconds-option.ts';

test('parseSeconds takes finite numbers of 0 or more and refuses the rest', () => {
  expect(['0', '2.5', '1e3'].map(parseSeconds)).toEqual([0, 2.5, 1000]);
  for (const text of ['', ' ', '-1', 'ten', 'Infinity', 'NaN', '3s']) {
    expect(() => parseSeconds(text)).toThrow('Write a number of seconds, 0 or more.');
  }
});

test('secondsOption defaults to ten seconds', () => {
  expect([secondsOption().defaultValue, defaultSeconds]).toEqual([10, 10]);
});
