import { expect, test } from 'vitest';
import { isClose } from '#quantity/close';
import type { RouteAction } from '#routes/problem/route-problem';
import { chanceOfDamage } from './chance-of-damage.ts';

const near = (expected: number) => (value: number) => isClose(value, expected, { abs: 0.00005 });

test('chanceOfDamage multiplies the chances of no damage and names actions without odds', () => {
  const action = (id: string, damage?: number): RouteAction => ({
    id,
    kind: 'release',
    subject: id,
    atoms: [],
    needs: [],
    anyOf: [],
    gives: [],
    ...(damage === undefined
      ? {}
      : {
          odds: {
            success: { low: 0, mean: 0, high: 0 },
            damage: { low: 0, mean: damage, high: 2 * damage },
            tries: 1,
            source: 'bench',
          },
        }),
  });
  const found = chanceOfDamage([action('b', 0.1), action('c'), action('a', 0.2)]);
  expect(found.low).toBe(0);
  expect(found.mean).toSatisfy(near(1 - 0.9 * 0.8));
  expect(found.high).toSatisfy(near(1 - 0.8 * 0.6));
  expect(found.withoutOdds).toEqual(['c']);
});
