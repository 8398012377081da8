import { describe, expect, test } from 'vitest';
import { isClose } from '#quantity/close';
import { oddsFromTries } from './odds-from-tries.ts';

const near = (expected: number) => (value: number) => isClose(value, expected, { abs: 0.00005 });

describe('oddsFromTries', () => {
  test('two of two is 16 % to 100 %, and says what it does not rule out', () => {
    const odds = oddsFromTries({ successes: 2, damages: 0, tries: 2 });
    expect(odds?.success.low).toSatisfy(near(0.1581));
    expect(odds?.success).toMatchObject({ mean: 1, high: 1 });
    expect(odds?.damage.high).toSatisfy(near(0.8419));
    expect(odds?.damageNotRuledOut).toSatisfy(near(1 - 0.05 ** 0.5));
    expect(odds?.source).toBe('2 of 2 tries came, 0 damaged; exact 95 % interval (Clopper-Pearson)');
  });

  test('a damage seen is not ruled out by a rule for events unseen', () => {
    expect(oddsFromTries({ successes: 3, damages: 1, tries: 5 })).toMatchObject({
      success: { mean: 0.6 },
      damage: { mean: 0.2 },
      damageNotRuledOut: undefined,
    });
  });

  test('no tries say nothing; more outcomes than tries are refused', () => {
    expect(oddsFromTries({ successes: 0, damages: 0, tries: 0 })).toBeUndefined();
    expect(() => oddsFromTries({ successes: 2, damages: 1, tries: 2 })).toThrow(RangeError);
  });
});
