import { expect, test } from 'vitest';
import { describeError, invariant, isUnfastenError, showValue, UnfastenError } from './unfasten-error.ts';

const details = { where: 'fasteners.f3.count', value: -2, remedy: 'Write a whole number of 1 or more.' };

test('describeError says where, what, the value and the remedy', () => {
  expect(describeError(new UnfastenError('record', 'A count is negative', details))).toBe(
    'fasteners.f3.count: A count is negative (found -2). Write a whole number of 1 or more.',
  );
});

test('isUnfastenError tells kinds apart and refuses foreign errors', () => {
  const error: unknown = new UnfastenError('record', 'x', details);
  expect([isUnfastenError(error), isUnfastenError(error, 'record'), isUnfastenError(error, 'bug')]).toEqual([
    true,
    true,
    false,
  ]);
  expect(isUnfastenError(new TypeError('x'))).toBe(false);
});

test('every family is told by the kind alone', () => {
  expect(new UnfastenError('file', 'x', details).family).toBe('your-data');
  expect(new UnfastenError('usage', 'x', details).family).toBe('used-wrongly');
  expect(new UnfastenError('bug', 'x', details).family).toBe('our-bug');
  expect(new UnfastenError('too-large', 'x', { ...details, best: 12, bound: 10, unit: 's' }).family).toBe('too-large');
});

test('showValue copes with what JSON cannot carry and cuts long values', () => {
  const circular: Record<string, unknown> = {};
  circular.self = circular;
  expect([showValue(undefined), showValue(Number.NaN), showValue(10n), showValue('a')]).toEqual([
    'nothing',
    'NaN',
    '10',
    '"a"',
  ]);
  expect(showValue(circular)).toBe('[object Object]');
  expect(showValue('x'.repeat(500))).toBe(`"${'x'.repeat(119)}… (502 characters)`);
});

test('invariant throws our bug only when the condition fails', () => {
  expect(() => invariant(true, 'a', 'b')).not.toThrow();
  expect(() => invariant(false, 'a fact is released twice', 'routes/search')).toThrowError(
    expect.objectContaining({ kind: 'bug', message: 'a fact is released twice' }),
  );
});
