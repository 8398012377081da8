import { expect, test } from 'vitest';
import { durationMilliseconds } from './duration.ts';

test('durationMilliseconds reads bare seconds, quantities and ranges as whole milliseconds', () => {
  expect([2.5, '8 min', '45 ± 5 s', '2 to 3 min', '1 TMU', '0.0005 s'].map(durationMilliseconds)).toEqual([
    2500, 480_000, 45_000, 150_000, 36, 1,
  ]);
});

test('durationMilliseconds is undefined for what is missing or no time', () => {
  expect([undefined, '3 g', 'soon', Number.NaN].map(durationMilliseconds)).toEqual([
    undefined,
    undefined,
    undefined,
    undefined,
  ]);
});
