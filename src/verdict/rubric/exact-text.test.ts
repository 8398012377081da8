import { expect, test } from 'vitest';
import { rational } from '#quantity/rational';
import { exactText, exactValue, roundedText, shownScore } from './exact-text.ts';

test('exactText writes what ends as a decimal and what does not as a fraction, and exactValue reads both', () => {
  const cases = [
    [rational(64n), '64'],
    [rational(129n, 2n), '64.5'],
    [rational(-1n, 8n), '-0.125'],
    [rational(1n, 20n), '0.05'],
    [rational(10n), '10'],
    [rational(193n, 3n), '193/3'],
  ] as const;
  for (const [value, text] of cases) {
    expect(exactText(value)).toBe(text);
    expect(exactValue(text)).toEqual(value);
  }
});

test('shownScore rounds a settled score to the nearest with halves up, and the ends of a width outward', () => {
  expect(shownScore(rational(1289n, 20n), rational(1289n, 20n))).toEqual({ low: '64.5', high: '64.5' });
  expect(shownScore(rational(6425n, 100n), rational(6425n, 100n))).toEqual({ low: '64.3', high: '64.3' });
  expect(shownScore(rational(6429n, 100n), rational(6431n, 100n))).toEqual({ low: '64.2', high: '64.4' });
  expect(shownScore(rational(64n), rational(65n))).toEqual({ low: '64.0', high: '65.0' });
});

test('roundedText rounds to the nearest', () => {
  expect([roundedText('2/3', 2), roundedText('100', 1), roundedText('0.005', 2)]).toEqual(['0.67', '100.0', '0.01']);
});
