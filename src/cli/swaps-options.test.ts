import { expect, test } from 'vitest';
import type { Assessment } from '#record/schema/assessment';
import { minutesOption, noBenchError } from './swaps-options.ts';
import { wholeNumberOption } from './whole-number-option.ts';

test.each([
  [undefined, 'a.yaml swapBench', 'The record has no bench for swaps'],
  [{}, 'a.yaml swapBench/parts', 'The bench for swaps has no part'],
  [{ parts: { battery: {} }, hosts: [] }, 'a.yaml swapBench/hosts', 'The bench for swaps has no specimen'],
] as const)('noBenchError says what of the bench %j is missing', (swapBench, where, message) => {
  expect(noBenchError('a.yaml', { swapBench } as unknown as Assessment)).toMatchObject({ message, details: { where } });
});

test('a number above the most an option takes is refused by that bound', () => {
  expect(() => wholeNumberOption('99999999999999999999')).toThrow('at most 999999999');
  expect(() => wholeNumberOption('0')).toThrow('1 or more');
  expect(() => minutesOption('1000000')).toThrow('below 1000000');
});
