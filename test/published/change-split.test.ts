/**
 * Source: the change of a weighted mean between two versions, as worked out in the project's own reference of bench facts,
 * section 5.5 [computed there, not printed in a publication]: weights 0.40/0.35/0.25 become 0.45/0.30/0.25, sub-scores
 * 60/80/50 become 70/75/60, the score goes from 64.5 to 69.0; midpoint split: scores +4.25, -1.625, +2.5 (together +5.125),
 * weights +3.25, -3.875, 0 (together -0.625). Exact: no tolerance.
 */
import { expect, test } from 'vitest';
import { mixturesOf } from '#verdict/rescore/mixtures';
import { splitChange } from '#verdict/rescore/split-change';
import type { RubricFacts } from '#verdict/rubric/metric-value';
import type { Rubric } from '#verdict/rubric/rubric-schema';

const KEYS = ['a', 'b', 'c'] as const;
const line = [
  { at: 0, points: 0 },
  { at: 100, points: 100 },
];

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
        scale: { line },
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

const [oldRubric, newRubric] = [rubricWith([0.4, 0.35, 0.25]), rubricWith([0.45, 0.3, 0.25])];
const [before, after] = [factsWith([60, 80, 50]), factsWith([70, 75, 60])];

test('bench facts 5.5: the change of +4.5 is +5.125 by facts and -0.625 by weights, at both ends', () => {
  const { before: from, after: to, low, high } = splitChange(mixturesOf(oldRubric, newRubric), { before, after });
  expect([from.low, from.high, to.low, to.high]).toEqual(['64.5', '64.5', '69', '69']);
  expect(low).toEqual({ change: '4.5', weights: '-0.625', scales: '0', metrics: '0', facts: '5.125' });
  expect(high).toEqual(low);
});

test('bench facts 5.5: the same by criterion', () => {
  const { low } = splitChange(mixturesOf(oldRubric, newRubric), { before, after }, true);
  expect(low?.by).toEqual({
    'criteria/a': { weights: '3.25', facts: '4.25' },
    'criteria/b': { weights: '-3.875', facts: '-1.625' },
    'criteria/c': { facts: '2.5' },
  });
});
