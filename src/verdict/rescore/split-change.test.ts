import fc from 'fast-check';
import { expect, test } from 'vitest';
import { negated, plus, rational } from '#quantity/rational';
import { drawnFacts, drawnRubric } from '../../../test/records/drawn-rubrics.ts';
import { share } from '../../../test/share.ts';
import { exactText, exactValue } from '../rubric/exact-text.ts';
import type { Rubric } from '../rubric/rubric-schema.ts';
import { scoreFacts } from '../rubric/score/score-facts.ts';
import { averageOverOrders, sumOf } from './average-over-orders.ts';
import { mixturesOf } from './mixtures.ts';
import { quickScorer } from './quick-score.ts';
import { type EndSplit, FACTORS, splitChange } from './split-change.ts';

const RUNS = { numRuns: share(60, 5000), seed: 20_261_125 };
const four = fc.tuple(drawnRubric, drawnRubric, drawnFacts, drawnFacts);

const partsOf = (split: EndSplit) => FACTORS.map((factor) => exactValue(split[factor]));

test('splitChange: ends are those of the score itself, and the parts add up to the change exactly', () => {
  let split = 0;
  fc.assert(
    fc.property(four, fc.boolean(), ([old, next, before, after], byCriterion) => {
      const found = splitChange(mixturesOf(old, next), { before, after }, byCriterion);
      const [from, to] = [scoreFacts(old, before), scoreFacts(next, after)];
      expect([found.before.low, found.before.high, found.before.mayBeNone]).toEqual([
        from.low,
        from.high,
        from.mayBeNone,
      ]);
      expect([found.after.low, found.after.high, found.after.mayBeNone]).toEqual([to.low, to.high, to.mayBeNone]);
      for (const end of ['low', 'high'] as const) {
        const parts = found[end];
        if (!parts || from[end] === undefined || to[end] === undefined) continue;
        split += 1;
        const change = plus(exactValue(to[end]), negated(exactValue(from[end])));
        expect(partsOf(parts).reduce(plus)).toEqual(change);
        expect(parts.change).toBe(exactText(change));
        if (!byCriterion) continue;
        const rows = Object.values(parts.by ?? {}).flatMap((row) => Object.values(row).map(exactValue));
        expect(rows.reduce(plus, rational(0n))).toEqual(change);
      }
    }),
    RUNS,
  );
  expect(split).toBeGreaterThan(RUNS.numRuns);
});

test('splitChange: backwards every part has the other sign, with and without parts by criterion', () => {
  fc.assert(
    fc.property(four, ([old, next, before, after]) => {
      const there = splitChange(mixturesOf(old, next), { before, after });
      const back = splitChange(mixturesOf(next, old), { before: after, after: before });
      for (const end of ['low', 'high'] as const) {
        const [one, other] = [there[end], back[end]];
        expect(one === undefined).toBe(other === undefined);
        if (one && other) expect(partsOf(other)).toEqual(partsOf(one).map(negated));
      }
    }),
    RUNS,
  );
});

const withWeights = (rubric: Rubric, weight: number): Rubric => ({
  ...rubric,
  criteria: Object.fromEntries(Object.entries(rubric.criteria).map(([id, item]) => [id, { ...item, weight }])),
});

test('splitChange: what did not change gets 0', () => {
  fc.assert(
    fc.property(four, fc.integer({ min: 1, max: 9 }), ([old, next, before, after], weight) => {
      const onlyFacts = splitChange(mixturesOf(old, old), { before, after });
      const onlyRubric = splitChange(mixturesOf(old, next), { before, after: before });
      const onlyWeights = splitChange(mixturesOf(old, withWeights(old, weight)), { before, after: before });
      expect(FACTORS.filter((factor) => onlyFacts.low && onlyFacts.low[factor] !== '0')).toEqual(
        onlyFacts.low && onlyFacts.low.change !== '0' ? ['facts'] : [],
      );
      expect(onlyRubric.low?.facts ?? '0').toBe('0');
      for (const factor of ['scales', 'metrics', 'facts'] as const) expect(onlyWeights.high?.[factor] ?? '0').toBe('0');
    }),
    RUNS,
  );
});

/** By definition: every order written out. */
const ordersOf = (factors: readonly number[]): readonly (readonly number[])[] =>
  factors.length === 0
    ? [[]]
    : factors.flatMap((first) => ordersOf(factors.filter((each) => each !== first)).map((rest) => [first, ...rest]));

test('averageOverOrders: the average over every order written out, orders through a gap left out', () => {
  const values = fc.array(fc.option(fc.integer({ min: -50, max: 50 }), { freq: 6 }), { minLength: 16, maxLength: 16 });
  fc.assert(
    fc.property(values, (drawn) => {
      const orders = ordersOf([0, 1, 2, 3]).filter((order) => {
        const sets = order.map((_, index) => order.slice(0, index + 1).reduce((set, each) => set | (1 << each), 0));
        return [0, ...sets].every((set) => typeof drawn[set] === 'number');
      });
      const found = averageOverOrders(4, (set) => {
        const value = drawn[set];
        return typeof value === 'number' ? new Map([['only', rational(BigInt(value))]]) : undefined;
      });
      const means = [0, 1, 2, 3].map((factor) => {
        const steps = orders.map((order) => {
          const set = order.slice(0, order.indexOf(factor)).reduce((bits, each) => bits | (1 << each), 0);
          return Number(drawn[set | (1 << factor)]) - Number(drawn[set]);
        });
        return rational(BigInt(steps.reduce((sum, step) => sum + step, 0)), BigInt(Math.max(1, orders.length)));
      });
      expect(found?.map((components) => sumOf(components))).toEqual(orders.length === 0 ? undefined : means);
    }),
    RUNS,
  );
});

test('mixturesOf: a scale goes with a metric of another kind, and one criterion more is a change of metrics alone', () => {
  const line = (at: number) => ({
    line: [
      { at: 0, points: 0 },
      { at, points: 100 },
    ],
  });
  const base = {
    title: 'a',
    metric: { of: 'steps' as const, role: 'battery' as const, basis: 'best' as const },
    weight: 1,
  };
  const old = { criteria: { a: { ...base, scale: line(4) } } } as unknown as Rubric;
  const words = { words: { destroyed: 0, removable: 1, resupplied: 2, reusable: 3 } };
  const other = { ...base, metric: { of: 'reuse-class', role: 'battery', basis: 'best' }, scale: words, weight: 2 };
  const next = { criteria: { a: other, b: { ...base, weight: 3, scale: line(9) } } } as unknown as Rubric;
  const mixtures = mixturesOf(old, next);
  expect(mixtures.changed).toEqual(['weights', 'metrics']);
  expect(mixtures.mixed(new Set(['metrics'])).rubric.criteria).toEqual({
    ...next.criteria,
    a: { ...other, weight: 1 },
  });
});

test('quickScorer: the ends are those of scoreFacts, record after record by the same scorer', () => {
  fc.assert(
    fc.property(
      drawnRubric,
      fc.array(drawnFacts, { minLength: 1, maxLength: 4 }),
      fc.boolean(),
      (rubric, all, known) => {
        const score = quickScorer(rubric);
        for (const each of all) {
          const facts = known ? each : { ...each, category: null };
          const [quick, full] = [score(facts), scoreFacts(rubric, facts)];
          expect([quick.low && exactText(quick.low), quick.high && exactText(quick.high), quick.mayBeNone]).toEqual([
            full.low,
            full.high,
            full.mayBeNone,
          ]);
        }
      },
    ),
    RUNS,
  );
});
