import { describe, expect, it } from 'vitest';
import { rational } from '#quantity/rational';
import { type DiagonalEnds, type ScopeFacts, scopeOf } from './scope.ts';

/** A diagonal in hundredths of an inch, or between two of them. */
const size = (low: number, high = low): DiagonalEnds => ({
  low: rational(BigInt(low), 100n),
  high: rational(BigInt(high), 100n),
});

const phone: ScopeFacts = {
  category: 'smartphone',
  diagonal: size(630),
  foldable: false,
  otherDiagonal: undefined,
  keyboardAttached: undefined,
  mobileOperatingSystem: undefined,
  rollableMainDisplay: false,
  highSecurity: false,
};
const tablet: ScopeFacts = {
  ...phone,
  category: 'slate-tablet',
  diagonal: size(1100),
  highSecurity: undefined,
  keyboardAttached: false,
  mobileOperatingSystem: true,
};

describe('scopeOf', () => {
  it.each<[string, ScopeFacts, unknown]>([
    ['a handset', phone, true],
    ['4.0 in', { ...phone, diagonal: size(400) }, true],
    ['6.99 in', { ...phone, diagonal: size(699) }, true],
    ['a tablet', tablet, true],
    ['7.0 in', { ...tablet, diagonal: size(700) }, true],
    ['17.39 in', { ...tablet, diagonal: size(1739) }, true],
    [
      'a foldable with one display in range',
      { ...phone, foldable: true, diagonal: size(780), otherDiagonal: size(620) },
      true,
    ],
    ['an unknown category', { ...phone, category: undefined }, 'open'],
    ['an unknown diagonal', { ...phone, diagonal: undefined }, 'open'],
    ['a foldable whose other display is unknown', { ...phone, foldable: true, diagonal: size(780) }, 'open'],
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
    ['3.99 in', { ...phone, diagonal: size(399) }, '3.99 in is outside 4 in to below 7 in', 'Article 2'],
    ['a 7.0 in smartphone', { ...phone, diagonal: size(700) }, '7 in is outside 4 in to below 7 in', 'Article 2'],
    ['a 17.4 in tablet', { ...tablet, diagonal: size(1740) }, '17.4 in is outside 7 in to below 17.4 in', 'Article 2'],
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
      scopeOf({ ...phone, category: 'cordless-vacuum', diagonal: undefined, rollableMainDisplay: undefined }).inScope,
    ).toBe(false);
  });

  it('names what is missing, and why', () => {
    const verdict = scopeOf({ ...phone, highSecurity: undefined });
    expect(verdict).toEqual({
      inScope: 'open',
      missing: [
        {
          address: 'product/highSecurity',
          what: 'whether it is a high-security smartphone',
          why: 'not recorded, and the scope hangs on it',
          remedy: 'record product/highSecurity',
        },
      ],
    });
  });
});

describe('scopeOf, a diagonal with its uncertainty', () => {
  it.each<[string, DiagonalEnds, unknown]>([
    ['wholly inside', size(690, 699), true],
    ['across the upper limit', size(699, 700), 'open'],
    ['from the upper limit on', size(700, 710), false],
    ['up to the lower limit', size(390, 400), 'open'],
    ['from the lower limit on', size(400, 401), true],
    ['below the lower limit', size(390, 399), false],
    ['around the whole range', size(300, 800), 'open'],
  ])('%s is %s', (_name, diagonal, expected) => {
    expect(scopeOf({ ...phone, diagonal }).inScope).toBe(expected);
  });

  it('says which limit it straddles', () => {
    const verdict = scopeOf({ ...tablet, diagonal: size(1735, 1745) });
    expect(verdict).toMatchObject({
      missing: [
        {
          address: 'product/diagonal',
          why: '17.35 in to 17.45 in lies partly inside and partly outside 7 in to below 17.4 in',
        },
      ],
    });
  });
});

describe('scopeOf, a main display out of range', () => {
  const big = { ...phone, diagonal: size(780) };
  it.each<[string, Partial<ScopeFacts>, unknown]>([
    ['not foldable', { foldable: false, otherDiagonal: size(620) }, false],
    ['foldable, the other in range', { foldable: true, otherDiagonal: size(620) }, true],
    ['foldable, the other out of range', { foldable: true, otherDiagonal: size(720) }, false],
    ['foldable, the other uncertain', { foldable: true, otherDiagonal: size(690, 710) }, 'product/foldedDiagonal'],
    ['foldable, the other unknown', { foldable: true }, 'product/foldedDiagonal'],
    ['foldable or not unknown', { foldable: undefined }, 'product/foldable/foldingDisplay'],
    [
      'foldable or not unknown, the other in range',
      { foldable: undefined, otherDiagonal: size(620) },
      'product/foldable/foldingDisplay',
    ],
    ['foldable or not unknown, both out of range', { foldable: undefined, otherDiagonal: size(720) }, false],
  ])('%s: %s', (_name, facts, expected) => {
    const verdict = scopeOf({ ...big, ...facts });
    expect(verdict.inScope === 'open' ? verdict.missing.map(({ address }) => address) : verdict.inScope).toEqual(
      typeof expected === 'string' ? [expected] : expected,
    );
  });
});
