import { describe, expect, it } from 'vitest';
import { type ScopeFacts, scopeOf } from './scope.ts';

const phone: ScopeFacts = {
  category: 'smartphone',
  diagonalHundredths: 630,
  foldable: false,
  otherDiagonalHundredths: undefined,
  keyboardAttached: undefined,
  mobileOperatingSystem: undefined,
  rollableMainDisplay: false,
  highSecurity: false,
};
const tablet: ScopeFacts = {
  ...phone,
  category: 'slate-tablet',
  diagonalHundredths: 1100,
  highSecurity: undefined,
  keyboardAttached: false,
  mobileOperatingSystem: true,
};

describe('scopeOf', () => {
  it.each<[string, ScopeFacts, unknown]>([
    ['a handset', phone, true],
    ['4.0 in', { ...phone, diagonalHundredths: 400 }, true],
    ['6.99 in', { ...phone, diagonalHundredths: 699 }, true],
    ['a tablet', tablet, true],
    ['7.0 in', { ...tablet, diagonalHundredths: 700 }, true],
    ['17.39 in', { ...tablet, diagonalHundredths: 1739 }, true],
    [
      'a foldable with one display in range',
      { ...phone, foldable: true, diagonalHundredths: 780, otherDiagonalHundredths: 620 },
      true,
    ],
    ['an unknown category', { ...phone, category: undefined }, 'open'],
    ['an unknown diagonal', { ...phone, diagonalHundredths: undefined }, 'open'],
    ['a foldable whose other display is unknown', { ...phone, foldable: true, diagonalHundredths: 780 }, 'open'],
    ['a tablet whose keyboard is unknown', { ...tablet, keyboardAttached: undefined }, 'open'],
  ])('%s is %s in scope', (_name, facts, expected) => {
    expect(scopeOf(facts).inScope).toBe(expected);
  });

  it.each<[string, ScopeFacts, string, string]>([
    [
      'a vacuum',
      { ...phone, category: 'cordless-vacuum' },
      'a cordless-vacuum is neither a smartphone nor a slate tablet',
      'Article 1',
    ],
    ['3.99 in', { ...phone, diagonalHundredths: 399 }, '3.99 in is outside 4 in to below 7 in', 'Article 2'],
    ['a 7.0 in smartphone', { ...phone, diagonalHundredths: 700 }, '7 in is outside 4 in to below 7 in', 'Article 2'],
    [
      'a 17.4 in tablet',
      { ...tablet, diagonalHundredths: 1740 },
      '17.4 in is outside 7 in to below 17.4 in',
      'Article 2',
    ],
    ['a keyboard', { ...tablet, keyboardAttached: true }, 'it has an attached keyboard as designed', 'Article 2'],
    [
      'a desktop system',
      { ...tablet, mobileOperatingSystem: false },
      'its operating system is no mobile one',
      'Article 2',
    ],
    ['a rollable display', { ...phone, rollableMainDisplay: true }, 'the main display can be rolled up', 'Article 1'],
    ['a high-security phone', { ...phone, highSecurity: true }, 'it is a high-security smartphone', 'Article 1'],
  ])('%s is out, with the article', (...[, facts, outOfScope, article]) => {
    expect(scopeOf(facts)).toEqual({ inScope: false, outOfScope, article: `Regulation (EU) 2023/1669, ${article}` });
  });

  it('is out by one reason whatever else is open', () => {
    expect(
      scopeOf({ ...phone, category: 'cordless-vacuum', diagonalHundredths: undefined, rollableMainDisplay: undefined })
        .inScope,
    ).toBe(false);
  });

  it('names what is missing', () => {
    const verdict = scopeOf({ ...phone, highSecurity: undefined });
    expect(verdict).toEqual({
      inScope: 'open',
      missing: [
        {
          address: 'product.highSecurity',
          what: 'whether it is a high-security smartphone is not known',
          remedy: 'Record product.highSecurity.',
        },
      ],
    });
  });
});
