import { expect, test } from 'vitest';
import { isClose } from './close.ts';

test('isClose takes an absolute or a relative tolerance, ends included, and nothing that is not finite', () => {
  expect(isClose(10.5, 10, { abs: 0.5 })).toBe(true);
  expect(isClose(10.51, 10, { abs: 0.5 })).toBe(false);
  expect(isClose(101, 100, { rel: 0.01 })).toBe(true);
  expect(isClose(102, 100, { rel: 0.01 })).toBe(false);
  expect(isClose(Number.NaN, Number.NaN, { abs: 1 })).toBe(false);
  expect(isClose(Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY, { rel: 1 })).toBe(false);
});
