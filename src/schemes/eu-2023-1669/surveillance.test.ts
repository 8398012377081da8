import { describe, expect, it } from 'vitest';
import { checkClass, checkR, standingAfter } from './surveillance.ts';

describe('standingAfter', () => {
  it.each([
    [[], 'nothing-determined'],
    [[32_064], 'complies'],
    [[32_063], 'test-one-further-unit'],
    [[31_850, 32_600], 'complies'],
    [[31_850, 31_850], 'model-fails'],
    [[32_600, 31_850], 'complies'],
  ])('after %j against a declared 3.34', (determined, expected) => {
    expect(standingAfter(334, determined)).toBe(expected);
  });
});

describe('checkClass', () => {
  it('upholds the class of the declared R and a worse one, not a better one', () => {
    expect([checkClass('C', 334).upheld, checkClass('D', 334).upheld, checkClass('B', 334).upheld]).toEqual([
      true,
      true,
      false,
    ]);
    expect(checkClass('B', 335)).toEqual({ upheld: true, fromDeclared: 'B', consequence: 'none' });
  });
});

describe('checkR', () => {
  it('shows its arithmetic', () => {
    expect(checkR(334, 31_850).arithmetic).toBe('3.1850 < 0.96 × 3.34 = 3.2064');
  });
});
