import { expect, test } from 'vitest';
import { compare } from '#quantity/rational';
import { exactValue } from '#verdict/rubric/exact-text';
import { rubricFacts } from '#verdict/rubric/facts/rubric-facts';
import { metricKinds } from '#verdict/rubric/metric-kinds';
import type { MetricValue } from '#verdict/rubric/metric-value';
import type { Metric, Rubric, Scale } from '#verdict/rubric/rubric-schema';
import { scoreFacts } from '#verdict/rubric/score/score-facts';
import { SeededRandom } from '../faults/seeded-random.ts';
import { share } from '../share.ts';
import { drawRecord } from './drawn-record.ts';

const CASES = share(20, 1500);
const ROLES = ['battery', 'display', 'back-cover', 'speaker'] as const;

const METRICS: readonly Metric[] = ROLES.flatMap((role): Metric[] => [
  { of: 'steps', role, basis: 'best' },
  { of: 'steps', role, basis: 'observed' },
  { of: 'reuse-class', role, basis: 'best' },
  { of: 'reuse-class', role, basis: 'observed' },
  { of: 'tool-class', role, basis: 'best' },
  { of: 'tool-class', role, basis: 'observed' },
  { of: 'expected-time', role },
  { of: 'damage', role },
  { of: 'pairing', role },
  { of: 'spare-offered', role },
  { of: 'transfer-work', role },
]);

/** More is worse, and a better word earns more. */
const scaleOf = ({ of }: Metric): Scale => {
  const { words } = metricKinds[of];
  if (words) return { words: Object.fromEntries(words.map((word, index) => [word, 10 * index])) };
  return of === 'expected-time' || of === 'damage'
    ? {
        line: [
          { at: 0, points: 100 },
          { at: of === 'damage' ? 1 : 600, points: 0 },
        ],
      }
    : { table: [{ upTo: 2, points: 90 }, { upTo: 4, points: 50 }, { points: 5 }] };
};

const RUBRIC: Rubric = {
  format: 'unfasten/rubric',
  version: 1,
  id: 'all',
  title: 'All',
  edition: 1,
  author: 'a test',
  date: '2026-11-25',
  criteria: Object.fromEntries(
    METRICS.map((metric, index) => [
      `c${index}`,
      { title: 'c', metric, scale: scaleOf(metric), weight: 1 + (index % 3) },
    ]),
  ),
  caps: {
    stuck: {
      title: 'stuck',
      when: { metric: { of: 'steps', role: 'battery', basis: 'best' }, is: ['none'] },
      atMost: 20,
    },
  },
};

/** What of a completed value lies outside what was possible before? */
const outside = (inner: MetricValue, outer: MetricValue): readonly string[] => {
  const [low, high] = [outer.range?.low ?? null, outer.range?.high ?? null];
  const isBelow = inner.range?.low != null && low !== null && compare(exactValue(inner.range.low), exactValue(low)) < 0;
  const isAbove =
    high !== null &&
    inner.range !== undefined &&
    (inner.range.high === null || compare(exactValue(inner.range.high), exactValue(high)) > 0);
  return [
    ...(inner.range && !outer.range ? ['a number'] : []),
    ...(isBelow ? [`${inner.range?.low} below ${low}`] : []),
    ...(isAbove ? [`${inner.range?.high} above ${high}`] : []),
    ...(inner.words ?? []).filter((word) => !outer.words?.includes(word)),
    ...(inner.none && !outer.none ? ['none'] : []),
  ];
};

test(`facts and score of a completed record lie within those of the open one, over ${CASES} drawn records`, () => {
  for (let seed = 1; seed <= CASES; seed += 1) {
    const stream = new SeededRandom(seed);
    const { open, complete } = drawRecord(() => stream.below(2 ** 20) / 2 ** 20);
    const before = rubricFacts({ assessment: open }, [RUBRIC]);
    const after = rubricFacts({ assessment: complete }, [RUBRIC]);
    for (const [key, value] of Object.entries(after.metrics))
      if (after.roles[key.split('/')[1] ?? '']?.answer === 'yes')
        expect([seed, key, outside(value, before.metrics[key] as MetricValue)]).toEqual([seed, key, []]);
    const [wide, narrow] = [scoreFacts(RUBRIC, before), scoreFacts(RUBRIC, after)];
    expect(compare(exactValue(wide.low ?? ''), exactValue(narrow.low ?? '')), `seed ${seed}`).toBeLessThanOrEqual(0);
    expect(compare(exactValue(wide.high ?? ''), exactValue(narrow.high ?? '')), `seed ${seed}`).toBeGreaterThanOrEqual(
      0,
    );
  }
});
