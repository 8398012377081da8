/**
 * Source: a weighted mean of sub-scores between two versions, as worked out in the project's own reference of bench facts,
 * section 5.5 [computed there, not printed in a publication]: weights 0.40/0.35/0.25 become 0.45/0.30/0.25, sub-scores
 * 60/80/50 become 70/75/60, the score goes from 64.5 to 69.0. Exact: no tolerance.
 */
import { expect, test } from 'vitest';
import type { RubricFacts } from '#verdict/rubric/metric-value';
import type { Rubric } from '#verdict/rubric/rubric-schema';
import { scoreFacts } from '#verdict/rubric/score/score-facts';

const KEYS = ['a', 'b', 'c'] as const;

/** Three measured quantities, each worth its own number of points. */
const rubricWith = (weights: readonly number[]): Rubric => ({
  format: 'unfasten/rubric',
  version: 1,
  id: 'additive',
  title: 'Additive',
  edition: 1,
  author: 'a test',
  date: '2026-11-25',
  criteria: Object.fromEntries(
    KEYS.map((key, index) => [
      key,
      {
        title: key,
        metric: { of: 'measured' as const, measure: key, unit: '%' },
        scale: {
          line: [
            { at: 0, points: 0 },
            { at: 100, points: 100 },
          ],
        },
        weight: weights[index] ?? 0,
      },
    ]),
  ),
});

const factsWith = (scores: readonly number[]): RubricFacts => ({
  category: 'other',
  roles: {},
  metrics: Object.fromEntries(
    KEYS.map((key, index) => {
      const value = String(scores[index]);
      return [`measured/${key}/%`, { range: { low: value, high: value }, none: false, missing: [], evidence: [] }];
    }),
  ),
});

const VERSIONS = [
  { when: 'before', weights: [0.4, 0.35, 0.25], scores: [60, 80, 50], score: '64.5', parts: ['24', '28', '12.5'] },
  { when: 'after', weights: [0.45, 0.3, 0.25], scores: [70, 75, 60], score: '69', parts: ['31.5', '22.5', '15'] },
];

test.each(VERSIONS)('bench facts 5.5, the score $when the change', ({ weights, scores, score, parts }) => {
  const found = scoreFacts(rubricWith(weights), factsWith(scores));
  expect([found.state, found.low, found.high]).toEqual(['settled', score, score]);
  expect(found.criteria.map(({ atLow }) => atLow?.contribution)).toEqual(parts);
});
