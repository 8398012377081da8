import fc from 'fast-check';
import { expect, test } from 'vitest';
import { compare, plus, rational, times } from '#quantity/rational';
import { seededNumbers } from '#quantity/seeded-numbers';
import { drawnFacts, drawnRubric } from '../../../test/records/drawn-rubrics.ts';
import { share } from '../../../test/share.ts';
import { exactText, exactValue } from '../rubric/exact-text.ts';
import type { RubricFacts } from '../rubric/metric-value.ts';
import type { Rubric } from '../rubric/rubric-schema.ts';
import { scoreFacts } from '../rubric/score/score-facts.ts';
import { canOutrank, frameOf } from './outranks.ts';
import { robustnessOf } from './robustness.ts';
import { weightWidth } from './weight-width.ts';

const RUNS = { numRuns: share(40, 2000), seed: 20_261_125 };
const FIFTH = rational(1n, 5n);

/** Every corner of the box of weights, by definition. */
const corners = (rubric: Rubric): readonly Rubric[] => {
  const ids = Object.keys(rubric.criteria);
  return Array.from({ length: 2 ** ids.length }, (_, corner) => ({
    ...rubric,
    criteria: Object.fromEntries(
      Object.entries(rubric.criteria).map(([id, item], index) => {
        const factor = rational(((corner >> index) & 1) === 1 ? 6n : 4n, 5n);
        return [id, { ...item, weight: exactText(times(exactValue(item.weight), factor)) }];
      }),
    ),
  }));
};

test('weightWidth: the ends are those over every corner of the box', () => {
  fc.assert(
    fc.property(drawnRubric, drawnFacts, (rubric, facts) => {
      const scores = corners(rubric).map((corner) => scoreFacts(corner, facts));
      const lows = scores.flatMap(({ low }) => (low === undefined ? [] : [exactValue(low)])).sort(compare);
      const highs = scores.flatMap(({ high }) => (high === undefined ? [] : [exactValue(high)])).sort(compare);
      const width = weightWidth(rubric, facts, FIFTH);
      expect([width?.low, width?.high]).toEqual([lows[0], highs.at(-1)]);
    }),
    RUNS,
  );
});

const settled = (facts: RubricFacts): RubricFacts => ({
  ...facts,
  roles: Object.fromEntries(Object.keys(facts.roles).map((role) => [role, { answer: 'yes' as const, missing: [] }])),
  metrics: Object.fromEntries(
    Object.entries(facts.metrics).map(([key, value]) => [
      key,
      {
        ...value,
        ...(value.range ? { range: { low: value.range.low, high: value.range.low } } : {}),
        ...(value.words ? { words: value.words.slice(0, 1) } : {}),
      },
    ]),
  ),
});

test('canOutrank: a corner or sample that shows it is never contradicted, and without caps corners settle it', () => {
  const next = seededNumbers(7);
  let shown = 0;
  fc.assert(
    fc.property(drawnRubric, drawnFacts, drawnFacts, (rubric, one, other) => {
      const [a, b] = [settled(one), settled(other)];
      const [first, second] = [frameOf(rubric, a), frameOf(rubric, b)];
      if (!first || !second) throw new Error('settled facts make a frame');
      const inside = Array.from({ length: 6 }, () => ({
        ...rubric,
        criteria: Object.fromEntries(
          Object.entries(rubric.criteria).map(([id, item]) => {
            const factor = plus(rational(4n, 5n), rational(BigInt(Math.floor(next() * 5)), 10n));
            return [id, { ...item, weight: exactText(times(exactValue(item.weight), factor)) }];
          }),
        ),
      }));
      const gaps = [...corners(rubric), ...inside].map((weighed) =>
        compare(exactValue(scoreFacts(weighed, a).low ?? '0'), exactValue(scoreFacts(weighed, b).low ?? '0')),
      );
      const can = canOutrank(first, second, { vary: FIFTH });
      const canTie = canOutrank(first, second, { vary: FIFTH, orEqual: true });
      if (gaps.some((gap) => gap > 0)) expect(can).toBe(true);
      if (gaps.some((gap) => gap >= 0)) expect(canTie).toBe(true);
      if (!first.cap && !second.cap) expect(can).toBe(gaps.some((gap) => gap > 0));
      shown += gaps.some((gap) => gap > 0) && gaps.some((gap) => gap < 0) ? 1 : 0;
    }),
    RUNS,
  );
  expect(shown).toBeGreaterThan(0);
});

test('robustnessOf: the same seed, the same result; drawn places lie within the possible ones', () => {
  const variation = { vary: FIFTH, samples: 30, seed: 1 };
  fc.assert(
    fc.property(drawnRubric, fc.array(drawnFacts, { minLength: 2, maxLength: 4 }), (rubric, all) => {
      const contenders = all.map((facts, index) => ({ item: `p${index}`, product: 'P', facts }));
      const found = robustnessOf(rubric, contenders, variation);
      expect(robustnessOf(rubric, contenders, variation)).toEqual(found);
      for (const { possible, drawn } of found.items) {
        if (!drawn) continue;
        expect(drawn.best).toBeGreaterThanOrEqual(possible.best);
        expect(drawn.worst).toBeLessThanOrEqual(possible.worst);
      }
    }),
    { ...RUNS, numRuns: share(20, 500) },
  );
});

test('seededNumbers: even over [0, 1), the same for the same seed, another for another', () => {
  const [one, same, other] = [seededNumbers(1), seededNumbers(1), seededNumbers(2)];
  const drawn = Array.from({ length: 4000 }, () => one());
  expect(drawn.slice(0, 50)).toEqual(Array.from({ length: 50 }, () => same()));
  expect(other()).not.toBe(drawn[0]);
  const tenths = Array.from(
    { length: 10 },
    (_, tenth) => drawn.filter((each) => Math.floor(each * 10) === tenth).length,
  );
  expect(Math.min(...tenths)).toBeGreaterThan(330);
  expect(Math.max(...tenths)).toBeLessThan(470);
});
