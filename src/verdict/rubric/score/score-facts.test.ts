import fc from 'fast-check';
import { expect, test } from 'vitest';
import { recomputeMismatches } from '#quantity/explained';
import { compare, dividedBy, plus, type Rational, rational, times } from '#quantity/rational';
import { share } from '../../../../test/share.ts';
import { exactText, exactValue } from '../exact-text.ts';
import { metricKey } from '../metric-kinds.ts';
import type { MetricValue, RubricFacts } from '../metric-value.ts';
import type { Criterion, Metric, Rubric, Scale } from '../rubric-schema.ts';
import { rubricRules } from './rubric-rules.ts';
import { scoreFacts } from './score-facts.ts';

const ROLES = ['battery', 'display', 'speaker'] as const;
const CATEGORIES = ['smartphone', 'laptop'] as const;
const WORDS = ['destroyed', 'removable', 'resupplied', 'reusable'];
const METRICS: readonly Metric[] = ROLES.flatMap((role): Metric[] => [
  { of: 'steps', role, basis: 'best' },
  { of: 'reuse-class', role, basis: 'best' },
]);

const points = fc.integer({ min: 0, max: 100 });
const rising = fc.uniqueArray(fc.integer({ min: 0, max: 12 }), { minLength: 2, maxLength: 3 });
const numberScale = fc.oneof(
  fc
    .tuple(rising, fc.array(points, { minLength: 4, maxLength: 4 }), fc.option(points))
    .map(([at, given, none]): Scale => {
      const bounds = [...at].sort((a, b) => a - b).map((bound) => bound / 2);
      const rows = bounds.map((upTo, index) => ({ upTo, points: given[index] ?? 0 }));
      return { table: [...rows, { points: given[3] ?? 0 }], ...(none === null ? {} : { none }) };
    }),
  fc.tuple(rising, fc.array(points, { minLength: 3, maxLength: 3 })).map(
    ([at, given]): Scale => ({
      line: [...at].sort((a, b) => a - b).map((bound, index) => ({ at: bound / 2, points: given[index] ?? 0 })),
    }),
  ),
);
const wordScale = fc
  .array(points, { minLength: 4, maxLength: 4 })
  .map((given): Scale => ({ words: Object.fromEntries(WORDS.map((word, index) => [word, given[index] ?? 0])) }));
const applies = fc.record(
  {
    categories: fc.uniqueArray(fc.constantFrom(...CATEGORIES), { minLength: 1, maxLength: 2 }),
    has: fc.uniqueArray(fc.constantFrom(...ROLES), { minLength: 1, maxLength: 2 }),
  },
  { requiredKeys: [] },
);
const criterion = fc.constantFrom(...METRICS).chain((metric) =>
  fc.record({
    title: fc.constant('a criterion'),
    metric: fc.constant(metric),
    scale: metric.of === 'steps' ? numberScale : wordScale,
    weight: fc.constantFrom<string | number>(1, 2, 0.5, '1/3', 7),
    applies,
  }),
);
const cap = fc.constantFrom(...METRICS).chain((metric) =>
  fc.record({
    title: fc.constant('a cap'),
    when:
      metric.of === 'steps'
        ? fc.oneof(
            fc.record({ metric: fc.constant(metric), above: fc.integer({ min: 0, max: 6 }) }),
            fc.record({ metric: fc.constant(metric), below: fc.integer({ min: 0, max: 6 }) }),
            fc.record({ metric: fc.constant(metric), is: fc.constant(['none']) }),
          )
        : fc.record({ metric: fc.constant(metric), is: fc.uniqueArray(fc.constantFrom(...WORDS), { minLength: 1 }) }),
    atMost: points,
    applies,
  }),
);
const rubrics = fc.tuple(fc.array(criterion, { minLength: 1, maxLength: 4 }), fc.array(cap, { maxLength: 3 })).map(
  ([criteria, caps]): Rubric => ({
    format: 'unfasten/rubric',
    version: 1,
    id: 'drawn',
    title: 'Drawn',
    edition: 1,
    author: 'a test',
    date: '2026-11-25',
    criteria: Object.fromEntries(criteria.map((item, index) => [`c${index}`, item])) as Rubric['criteria'],
    caps: Object.fromEntries(caps.map((item, index) => [`k${index}`, item])) as NonNullable<Rubric['caps']>,
  }),
);

const value = (metric: Metric): fc.Arbitrary<MetricValue> => {
  const rest = { missing: [], evidence: [] };
  return metric.of === 'steps'
    ? fc.tuple(fc.integer({ min: 0, max: 5 }), fc.integer({ min: 0, max: 3 }), fc.boolean()).map(
        ([low, width, none]): MetricValue => ({
          ...rest,
          range: { low: String(low), high: String(low + width) },
          none,
          whole: true,
        }),
      )
    : fc
        .tuple(fc.subarray(WORDS, { minLength: 1 }), fc.boolean())
        .map(([words, none]): MetricValue => ({ ...rest, words, none }));
};
const facts = fc
  .tuple(
    fc.tuple(...METRICS.map(value)),
    fc.array(fc.constantFrom('yes', 'yes', 'no', 'open'), { minLength: 3, maxLength: 3 }),
    fc.constantFrom(...CATEGORIES, null),
  )
  .map(
    ([values, answers, category]): RubricFacts => ({
      category,
      roles: Object.fromEntries(
        ROLES.map((role, index) => [role, { answer: answers[index] as 'yes' | 'no' | 'open', missing: [] }]),
      ),
      metrics: Object.fromEntries(METRICS.map((metric, index) => [metricKey(metric), values[index] as MetricValue])),
    }),
  );

/** One way everything turns out: a number of steps, a word, or none for each metric; a category; the roles there are. */
interface World {
  readonly category: string;
  readonly roles: ReadonlySet<string>;
  readonly values: Readonly<Record<string, number | string>>;
}

/** Every combination, by definition. */
const product = <T>(lists: readonly (readonly T[])[]): readonly (readonly T[])[] =>
  lists.reduce<readonly (readonly T[])[]>(
    (built, list) => built.flatMap((head) => list.map((item) => [...head, item])),
    [[]],
  );

const worlds = ({ category, roles, metrics }: RubricFacts, keys: readonly string[]): readonly World[] => {
  const possibilities = keys.map((key) => {
    const { range, words = [], none } = metrics[key] as MetricValue;
    const [low, high] = [Number(range?.low ?? 0), Number(range?.high ?? -1)];
    const numbers = Array.from({ length: high - low + 1 }, (_, index) => low + index);
    return [...numbers, ...words, ...(none ? ['none'] : [])];
  });
  const categories = category === null ? [...CATEGORIES, 'watch'] : [category];
  const presences = ROLES.map((role) =>
    roles[role]?.answer === 'open' ? [true, false] : [roles[role]?.answer === 'yes'],
  );
  return categories.flatMap((each) =>
    product<boolean>(presences).flatMap((present) =>
      product<number | string>(possibilities).map((taken) => ({
        category: each,
        roles: new Set(ROLES.filter((_, index) => present[index])),
        values: Object.fromEntries(keys.map((key, index) => [key, taken[index] ?? 'none'])),
      })),
    ),
  );
};

const isIn = (metric: Metric, limits: Criterion['applies'], world: World): boolean =>
  world.roles.has(metric.role as string) &&
  (limits?.has ?? []).every((role) => world.roles.has(role)) &&
  (limits?.categories === undefined || (limits.categories as readonly string[]).includes(world.category));

const earned = (scale: Scale, at: number | string): Rational => {
  if (at === 'none') return rational(BigInt(scale.none ?? 0));
  if (typeof at === 'string') return rational(BigInt(scale.words?.[at] ?? 0));
  const here = rational(BigInt(at));
  if (scale.table) {
    const row = scale.table.find(({ upTo }) => upTo === undefined || compare(here, exactValue(upTo)) <= 0);
    return rational(BigInt(row?.points ?? 0));
  }
  const line = scale.line ?? [];
  for (const [index, to] of line.entries()) {
    const from = line[index - 1];
    if (compare(here, exactValue(to.at)) > 0) continue;
    if (!from) return rational(BigInt(to.points));
    const span = plus(exactValue(to.at), times(exactValue(from.at), rational(-1n)));
    const share = dividedBy(plus(here, times(exactValue(from.at), rational(-1n))), span);
    return plus(rational(BigInt(from.points)), times(share, rational(BigInt(to.points - from.points))));
  }
  return rational(BigInt(line.at(-1)?.points ?? 0));
};

const scoreIn = (drawn: Rubric, world: World): Rational | undefined => {
  const there = Object.values(drawn.criteria).filter((item) => isIn(item.metric, item.applies, world));
  if (there.length === 0) return undefined;
  const weights = there.map(({ weight }) => exactValue(weight)).reduce(plus);
  const sum = there
    .map(({ scale, metric, weight }) =>
      times(exactValue(weight), earned(scale, world.values[metricKey(metric)] ?? 'none')),
    )
    .reduce(plus);
  const caps = Object.values(drawn.caps ?? {}).filter(({ when, applies: limits }) => {
    const at = world.values[metricKey(when.metric)] ?? 'none';
    if (!isIn(when.metric, limits, world)) return false;
    if (when.is) return when.is.includes(String(at));
    if (typeof at === 'string') return false;
    return when.above !== undefined ? at > Number(when.above) : at < Number(when.below);
  });
  return [dividedBy(sum, weights), ...caps.map(({ atMost }) => rational(BigInt(atMost)))].sort(compare)[0];
};

const keysOf = (drawn: Rubric): readonly string[] => [
  ...new Set([
    ...Object.values(drawn.criteria).map(({ metric }) => metricKey(metric)),
    ...Object.values(drawn.caps ?? {}).map(({ when }) => metricKey(when.metric)),
  ]),
];

const RUNS = { numRuns: share(150, 5000), seed: 20_261_125 };

test('scoreFacts: both ends are those of full enumeration, and the tree follows from its children', () => {
  fc.assert(
    fc.property(rubrics, facts, (drawn, known) => {
      const all = worlds(known, keysOf(drawn)).map((world) => scoreIn(drawn, world));
      const scores = all.filter((score) => score !== undefined).sort(compare);
      const score = scoreFacts(drawn, known);
      expect([score.low, score.high, score.mayBeNone]).toEqual([
        scores[0] && exactText(scores[0]),
        scores[0] && exactText(scores.at(-1) as Rational),
        scores.length < all.length,
      ]);
      expect(recomputeMismatches(score.tree, rubricRules)).toEqual([]);
    }),
    RUNS,
  );
});

const renamed = (drawn: Rubric): Rubric => ({
  ...drawn,
  criteria: Object.fromEntries(
    Object.entries(drawn.criteria)
      .reverse()
      .map(([, item], index) => [`z${index}`, item]),
  ),
  caps: Object.fromEntries(
    Object.entries(drawn.caps ?? {})
      .reverse()
      .map(([, item], index) => [`a${index}`, item]),
  ),
});

test('scoreFacts: neither the order nor the ids of criteria and caps matter', () => {
  fc.assert(
    fc.property(rubrics, facts, (drawn, known) => {
      const [one, other] = [scoreFacts(drawn, known), scoreFacts(renamed(drawn), known)];
      expect([other.low, other.high, other.state]).toEqual([one.low, one.high, one.state]);
    }),
    RUNS,
  );
});

const isWithin = (inner: { low?: string; high?: string }, outer: { low?: string; high?: string }): boolean =>
  inner.low === undefined ||
  (outer.low !== undefined &&
    compare(exactValue(outer.low), exactValue(inner.low)) <= 0 &&
    compare(exactValue(outer.high ?? ''), exactValue(inner.high ?? '')) >= 0);

test('scoreFacts: opening a fact never narrows, and a cap never raises either end', () => {
  fc.assert(
    fc.property(rubrics, facts, fc.constantFrom(...METRICS), (drawn, known, metric) => {
      const key = metricKey(metric);
      const { range, words } = known.metrics[key] as MetricValue;
      const wider: MetricValue = {
        ...(known.metrics[key] as MetricValue),
        ...(range ? { range: { low: '0', high: null } } : {}),
        ...(words ? { words: WORDS } : {}),
        none: true,
      };
      const before = scoreFacts(drawn, known);
      expect(isWithin(before, scoreFacts(drawn, { ...known, metrics: { ...known.metrics, [key]: wider } }))).toBe(true);
      const uncapped = scoreFacts({ ...drawn, caps: {} }, known);
      if (before.low !== undefined && uncapped.low !== undefined) {
        expect(compare(exactValue(before.low), exactValue(uncapped.low))).toBeLessThanOrEqual(0);
        expect(compare(exactValue(before.high ?? ''), exactValue(uncapped.high ?? ''))).toBeLessThanOrEqual(0);
      }
    }),
    RUNS,
  );
});

test('scoreFacts: numbers that are not whole reach the pieces between the turns of a scale', () => {
  const scale: Scale = { table: [{ upTo: 1, points: 10 }, { upTo: 2, points: 90 }, { points: 0 }] };
  const drawn = {
    criteria: { a: { title: 'a', metric: { of: 'price-ratio', role: 'battery' }, scale, weight: 1 } },
  } as unknown as Rubric;
  const known = (low: string | null, high: string | null): RubricFacts => ({
    category: 'laptop',
    roles: { battery: { answer: 'yes', missing: [] } },
    metrics: { 'price-ratio/battery': { range: { low, high }, none: false, missing: [], evidence: [] } },
  });
  const ends = (low: string | null, high: string | null) => {
    const score = scoreFacts(drawn, known(low, high));
    return [score.low, score.high];
  };
  expect(ends('1/2', '3/2')).toEqual(['10', '90']);
  expect(ends('11/10', '2')).toEqual(['90', '90']);
  expect(ends('2', '21/10')).toEqual(['0', '90']);
  expect(ends('3', null)).toEqual(['0', '0']);
  expect(ends(null, '1')).toEqual(['10', '10']);
});
