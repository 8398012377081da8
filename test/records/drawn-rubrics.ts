import fc from 'fast-check';
import { metricKey } from '#verdict/rubric/metric-kinds';
import type { MetricValue, RubricFacts } from '#verdict/rubric/metric-value';
import type { Metric, Role, Rubric, Scale } from '#verdict/rubric/rubric-schema';

const ROLES: readonly Role[] = ['battery', 'display'];
const WORDS = ['destroyed', 'removable', 'resupplied', 'reusable'];
const METRICS: readonly Metric[] = ROLES.flatMap((role): Metric[] => [
  { of: 'steps', role, basis: 'best' },
  { of: 'reuse-class', role, basis: 'best' },
]);

const points = fc.integer({ min: 0, max: 100 });
const lineScale = fc
  .tuple(points, points, points)
  .map(([a, b, c]): Scale => ({ line: [a, b, c].map((each, index) => ({ at: index * 2, points: each })) }));
const tableScale = fc
  .tuple(points, points)
  .map(([a, b]): Scale => ({ table: [{ upTo: 2, points: a }, { points: b }], none: 5 }));
const wordScale = fc
  .tuple(points, points, points, points)
  .map((given): Scale => ({ words: Object.fromEntries(WORDS.map((word, index) => [word, given[index] ?? 0])) }));

const criterion = fc.constantFrom(...METRICS).chain((metric) =>
  fc.record({
    title: fc.constant('a criterion'),
    metric: fc.constant(metric),
    scale: metric.of === 'steps' ? fc.oneof(lineScale, tableScale) : wordScale,
    weight: fc.constantFrom<string | number>(1, 2, 0.5, '1/3', 7),
  }),
);
const cap = fc.record({
  title: fc.constant('a cap'),
  when: fc.record({
    metric: fc.constant<Metric>({ of: 'steps', role: 'battery', basis: 'best' }),
    above: fc.integer({ min: 0, max: 5 }),
  }),
  atMost: points,
});

/** A small rubric drawn at random; criteria and caps of two drawn ones share some of their ids. */
export const drawnRubric: fc.Arbitrary<Rubric> = fc
  .tuple(
    fc.dictionary(fc.constantFrom('a', 'b', 'c', 'd'), criterion, { minKeys: 1, maxKeys: 4 }),
    fc.dictionary(fc.constantFrom('k', 'l'), cap, { maxKeys: 2 }),
  )
  .map(([criteria, caps]) => ({
    format: 'unfasten/rubric',
    version: 1,
    id: 'drawn',
    title: 'Drawn',
    edition: 1,
    author: 'a test',
    date: '2026-11-25',
    criteria: { ...criteria },
    caps: { ...caps },
  }));

const value = (metric: Metric): fc.Arbitrary<MetricValue> => {
  const rest = { missing: [], evidence: [] };
  return metric.of === 'steps'
    ? fc.tuple(fc.integer({ min: 0, max: 5 }), fc.integer({ min: 0, max: 2 })).map(
        ([low, width]): MetricValue => ({
          ...rest,
          range: { low: String(low), high: String(low + width) },
          none: false,
          whole: true,
        }),
      )
    : fc.subarray(WORDS, { minLength: 1, maxLength: 2 }).map((words): MetricValue => ({ ...rest, words, none: false }));
};

/** Facts drawn at random for every metric that a drawn rubric may look at. */
export const drawnFacts: fc.Arbitrary<RubricFacts> = fc
  .tuple(
    fc.tuple(...METRICS.map(value)),
    fc.array(fc.constantFrom<'yes' | 'no' | 'open'>('yes', 'yes', 'yes', 'open', 'no'), {
      minLength: ROLES.length,
      maxLength: ROLES.length,
    }),
  )
  .map(
    ([values, answers]): RubricFacts => ({
      category: 'smartphone',
      roles: Object.fromEntries(ROLES.map((role, index) => [role, { answer: answers[index] ?? 'yes', missing: [] }])),
      metrics: Object.fromEntries(
        METRICS.flatMap((metric, index) => {
          const drawn = values[index];
          return drawn ? [[metricKey(metric), drawn] as const] : [];
        }),
      ),
    }),
  );
