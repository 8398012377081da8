import { expect, test } from 'vitest';
import { assessment } from '../schema/assessment.ts';
import { compareFirmware, firmwareAt } from './firmware-order.ts';

test.each([
  ['5.0.1', '5.1.0', 'older'],
  ['5.10', '5.9.9', 'newer'],
  ['5.1', '5.1.0', 'same'],
  ['build 7', 'build 7', 'same'],
])('compareFirmware: %s is %s: %s', (a, b, expected) => {
  const order = compareFirmware(a, b) ?? Number.NaN;
  expect(order < 0 ? 'older' : order > 0 ? 'newer' : order === 0 ? 'same' : 'unknown').toBe(expected);
});

test('compareFirmware lets a list decide, and does not guess', () => {
  expect(compareFirmware('spring', 'autumn')).toBeUndefined();
  expect(compareFirmware('spring', 'autumn', ['spring', 'autumn'])).toBeLessThan(0);
  expect(compareFirmware('5.0.1', '5.1.0', ['5.1.0', '5.0.1'])).toBeGreaterThan(0);
  expect(compareFirmware('5.0.1', '5.1.0-rc', ['5.0.1'])).toBeUndefined();
});

test('firmwareAt gives what the history says of a moment, whatever the offset', () => {
  const firmware = {
    patch: { version: '5.1.0', since: '2026-10-14T09:00:00+02:00' },
    boot: { version: '5.0.1', since: '2026-10-08T09:00:00+02:00' },
    undated: { version: '4.9.9' },
  };
  const record = assessment.parse({
    format: 'unfasten/assessment',
    version: 1,
    product: { name: 'Tarn 5' },
    specimens: { c: { firmware }, d: {} },
  });
  expect(firmwareAt(record, 'c', '2026-10-08T06:59:59Z')).toBeUndefined();
  expect(firmwareAt(record, 'c', '2026-10-08T07:00:00Z')).toBe('5.0.1');
  expect(firmwareAt(record, 'c', '2026-10-15T07:00:00Z')).toBe('5.1.0');
  expect(firmwareAt(record, 'd', '2026-10-15T07:00:00Z')).toBeUndefined();
});
