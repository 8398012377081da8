import { describe, expect, it } from 'vitest';
import { recomputeMismatches } from '#quantity/explained';
import { compare } from '#quantity/rational';
import { exactValue } from '#verdict/rubric/exact-text';
import { rubricRules } from '#verdict/rubric/score/rubric-rules';
import { houseScore } from '../fixtures/house-score.ts';

describe('Quayside general, the rubric that ships with the tool', () => {
  it.each(['tarn-5', 'tarn-4', 'beck-11', 'gust-2', 'quick-log'])(
    'scores %s with its width, and every node of the tree follows from those below it',
    (name) => {
      const score = houseScore(name);
      expect(recomputeMismatches(score.tree, rubricRules)).toEqual([]);
      const [low, high] = [exactValue(score.low ?? ''), exactValue(score.high ?? '')];
      expect(compare(low, high)).toBeLessThan(0);
      expect([score.state, score.mayBeNone, score.rubric.invented]).toEqual(['open', false, true]);
      expect(score.missing.length).toBeGreaterThan(0);
    },
  );

  it('scores a vacuum, which the EU index does not cover, by its battery, filter and motor', () => {
    const score = houseScore('gust-2');
    const there = score.criteria.filter(({ applies }) => applies === 'yes').map(({ id }) => id);
    expect(there).toEqual(expect.arrayContaining(['battery-depth', 'filter-depth', 'motor-depth']));
    expect(there).not.toContain('display-depth');
    // 69 EUR of 229 EUR: 60 points less 300 for each further unit of the ratio past one fifth.
    expect(score.criteria.find(({ id }) => id === 'battery-price')?.points).toEqual({
      low: '6780/229',
      high: '6780/229',
    });
  });

  it('adds the contributions of each end up to the mean that the tree shows there', () => {
    const score = houseScore('gust-2');
    for (const [end, index] of [
      ['atLow', 0],
      ['atHigh', 1],
    ] as const) {
      const mean = score.tree.children[index]?.children[0]?.value;
      const hundredths = score.criteria.map((criterion) => exactValue(criterion[end]?.contribution ?? 0));
      const sum = hundredths.reduce((total, each) => ({
        numerator: total.numerator * each.denominator + each.numerator * total.denominator,
        denominator: total.denominator * each.denominator,
      }));
      expect(compare(sum, exactValue(mean?.kind === 'word' ? mean.value : ''))).toBe(0);
    }
  });
});
