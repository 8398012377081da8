/**
 * Source: the ratio rule of sequential testing (Mitten, Journal of Industrial Engineering 11 (1960) 17, as summarised in
 * arXiv 2511.15742) with worked examples and counter-examples computed for this project by enumerating all orders; printed
 * to one or two decimals of a second. The planner is asked through whole route problems, not through the formula.
 */
import { describe, expect, test } from 'vitest';
import { isClose } from '#quantity/close';
import type { Losses } from '#routes/expected/choices';
import { expectedTime } from '#routes/expected/expected-time';
import { timeOfOrder } from '#routes/expected/time-of-order';
import type { Fact, RouteAction, RouteProblem } from '#routes/problem/route-problem';

const goal: Fact = 'released/lid';

interface Attempt {
  readonly id: string;
  readonly seconds: number;
  readonly success?: number;
  readonly damage?: number;
  readonly tool?: string;
  readonly needs?: readonly Fact[];
  readonly gives?: Fact;
}

const exactly = (value: number) => ({ low: value, mean: value, high: value });

const actionOf = ({ id, seconds, success, damage, tool, needs, gives }: Attempt): RouteAction => ({
  id,
  kind: 'release',
  subject: 'lid',
  way: id,
  atoms: [{ do: 'pry', tools: tool ? [tool] : [], milliseconds: seconds * 1000 }],
  needs: needs ?? [],
  anyOf: [],
  gives: [gives ?? goal],
  ...(success === undefined
    ? {}
    : { odds: { success: exactly(success), damage: exactly(damage ?? 0), tries: 0, source: 'worked example' } }),
});

const problemOf = (attempts: readonly Attempt[], pickupSeconds = 0): RouteProblem => ({
  reach: 'pessimistic',
  tools: [...new Set(attempts.flatMap(({ tool }) => (tool ? [tool] : [])))].map((id) => ({
    id,
    pickupMilliseconds: pickupSeconds * 1000,
    holdingAid: false,
  })),
  actions: attempts.map(actionOf),
  priorityParts: [],
  unreachable: {},
});

const noLoss: Losses = { damageMilliseconds: 0, strandedMilliseconds: 0 };

const secondsOf = (
  attempts: readonly Attempt[],
  order: readonly string[],
  { losses = noLoss, pickupSeconds = 0 }: { readonly losses?: Losses; readonly pickupSeconds?: number } = {},
): number => timeOfOrder(problemOf(attempts, pickupSeconds), goal, { order, losses }).milliseconds / 1000;

const best = (attempts: readonly Attempt[], losses = noLoss, pickupSeconds = 0) => {
  const found = expectedTime(problemOf(attempts, pickupSeconds), goal, { losses });
  const order: string[] = [];
  for (let at = found.policy.start; typeof at === 'number'; ) {
    const node = found.policy.nodes[at];
    if (!node) break;
    order.push(node.action);
    at = node.onFailure ?? node.onSuccess;
  }
  return { seconds: found.milliseconds / 1000, order, isProved: found.isProved };
};

const near = (seconds: number, abs: number) => (value: number) => isClose(value, seconds, { abs });
const ONE_DECIMAL = 0.0501;
const TWO_DECIMALS = 0.00501;

const three: readonly Attempt[] = [
  { id: '1', seconds: 20, success: 0.3 },
  { id: '2', seconds: 60, success: 0.6 },
  { id: '3', seconds: 150, success: 0.95 },
];

describe('three unreliable attempts: 20 s at .30, 60 s at .60, 150 s at .95', () => {
  test.each([
    ['123', 104.0],
    ['213', 110.0],
    ['231', 120.4],
    ['132', 127.1],
    ['312', 153.1],
    ['321', 153.4],
  ])('order %s takes %f s', (order, seconds) => {
    expect(secondsOf(three, [...order])).toSatisfy(near(seconds, ONE_DECIMAL));
  });

  test('the planner goes by the ratios 66.7, 100, 157.9 and reaches 104.0 s', () => {
    expect(three.map(({ seconds, success }) => Math.round((seconds / (success ?? 1)) * 10) / 10)).toEqual([
      66.7, 100, 157.9,
    ]);
    const found = best(three);
    expect(found.order).toEqual(['1', '2', '3']);
    expect(found.seconds).toSatisfy(near(104.0, ONE_DECIMAL));
    expect(found.isProved).toBe(true);
  });

  test('with a fallback of 600 s it is 112.4 s, whether the fallback is a loss or a sure way', () => {
    expect(best(three, { damageMilliseconds: 0, strandedMilliseconds: 600_000 }).seconds).toSatisfy(
      near(112.4, ONE_DECIMAL),
    );
    const found = best([...three, { id: 'sure', seconds: 600 }]);
    expect(found.seconds).toSatisfy(near(112.4, ONE_DECIMAL));
    expect(found.order).toEqual(['1', '2', '3', 'sure']);
  });

  test('with damage 0, .05, .02 at a loss of 1000 s it is 138.65 s, and the next order 141.31 s', () => {
    const risky = three.map((attempt, index) => ({ ...attempt, damage: [0, 0.05, 0.02][index] ?? 0 }));
    const losses: Losses = { damageMilliseconds: 1_000_000, strandedMilliseconds: 0 };
    const found = best(risky, losses);
    expect(found.order).toEqual(['1', '2', '3']);
    expect(found.seconds).toSatisfy(near(138.65, TWO_DECIMALS));
    const others = ['213', '231', '132', '312', '321'].map((order) => secondsOf(risky, [...order], { losses }));
    expect(Math.min(...others)).toSatisfy(near(141.31, TWO_DECIMALS));
    const effective = risky.map(
      ({ seconds, success, damage }) => (seconds + damage * 1000) / ((success ?? 1) + damage),
    );
    expect(effective.map((ratio) => Math.round(ratio * 10) / 10)).toEqual([66.7, 169.2, 175.3]);
  });
});

describe('an attempt at .40 before a sure fallback of 600 s is worth trying below 240 s, where its ratio is 600 s', () => {
  const withFallback = (seconds: number): readonly Attempt[] => [
    { id: 'attempt', seconds, success: 0.4 },
    { id: 'sure', seconds: 600 },
  ];
  test.each([
    [239, ['attempt', 'sure'], 599],
    [241, ['sure'], 600],
  ])('an attempt of %i s: tried are %j, which takes %f s', (seconds, order, expected) => {
    const found = best(withFallback(seconds));
    expect(found.order).toEqual(order);
    expect(found.seconds).toSatisfy(near(expected, 1e-9));
  });

  test('at 240 s both are worth 600 s', () => {
    expect(best(withFallback(240)).seconds).toSatisfy(near(600, 1e-9));
  });
});

describe('where the ratio rule fails', () => {
  const shared: readonly Attempt[] = [
    { id: 'A', seconds: 10, success: 0.2, tool: 'first' },
    { id: 'B', seconds: 12, success: 0.25, tool: 'second' },
    { id: 'C', seconds: 10, success: 0.2, tool: 'first' },
  ];
  test.each([
    ['BAC', 39.5],
    ['ACB', 38.8],
    ['ABC', 44.8],
  ])('tool changes of 8 s: order %s takes %f s', (order, seconds) => {
    expect(secondsOf(shared, [...order], { pickupSeconds: 8 })).toSatisfy(near(seconds, ONE_DECIMAL));
  });

  test('tool changes of 8 s: the planner finds 38.8 s with the two attempts of one tool together', () => {
    const found = best(shared, noLoss, 8);
    expect(found.seconds).toSatisfy(near(38.8, ONE_DECIMAL));
    expect([...found.order.slice(0, 2)].sort()).toEqual(['A', 'C']);
    expect(found.order[2]).toBe('B');
  });

  // The attempt that must come first is a sure preparation and a try that takes no more time: trying it is what opens a2.
  const chained: readonly Attempt[] = [
    { id: 'prepare a1', seconds: 10, gives: 'released/tape' },
    { id: 'a1', seconds: 0, success: 0.05, needs: ['released/tape'] },
    { id: 'a2', seconds: 5, success: 0.6, needs: ['released/tape'] },
    { id: 'b', seconds: 12, success: 0.4 },
  ];
  test.each([
    [['b', 'prepare a1', 'a1', 'a2'], 20.85],
    [['prepare a1', 'a1', 'a2', 'b'], 19.31],
    [['prepare a1', 'a1', 'b', 'a2'], 24.25],
  ])('a prerequisite: order %j takes %f s', (order, seconds) => {
    expect(secondsOf(chained, order)).toSatisfy(near(seconds, TWO_DECIMALS));
  });

  test('a prerequisite: the planner takes the block of ratio 23.79 before the attempt of ratio 30', () => {
    expect((10 + 0.95 * 5) / (1 - 0.95 * 0.4)).toSatisfy(near(23.79, TWO_DECIMALS));
    const found = best(chained);
    expect(found.order).toEqual(['prepare a1', 'a1', 'a2', 'b']);
    expect(found.seconds).toSatisfy(near(19.31, TWO_DECIMALS));
  });
});
