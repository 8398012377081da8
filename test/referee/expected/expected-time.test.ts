import { describe, expect, test } from 'vitest';
import { isClose } from '#quantity/close';
import { expectedTime } from '#routes/expected/expected-time';
import { leastDamage } from '#routes/expected/least-damage';
import type { Fact } from '#routes/problem/route-problem';
import { share } from '../../share.ts';
import { exhaustivePolicy } from './exhaustive-policy.ts';
import { randomWork } from './random-work.ts';
import { seeded } from './seeded.ts';
import { simulatePolicy } from './simulate-policy.ts';
import { toRouteProblem } from './to-route-problem.ts';
import type { UncertainWork } from './uncertain-work.ts';

const optionsOf = (work: UncertainWork) => ({
  losses: { damageMilliseconds: work.damageLoss, strandedMilliseconds: work.strandedLoss },
});
const targetOf = (work: UncertainWork): Fact => work.target as Fact;

/** Sums of at most some thousand products: what is left between two orders of adding up. */
const ROUNDING = 1e-9;
const sameSum = (actual: number, expected: number): boolean =>
  isClose(actual, expected, { abs: ROUNDING * Math.max(1, expected) });

const workOf = (seed: number, hasDamage: boolean): UncertainWork => {
  const random = seeded(seed);
  return randomWork({ random, tries: random.int(3, 9), hasDamage });
};

describe('the planner against exhaustive policy search', () => {
  test('expected time is the optimum over all policies of tries that serve the target, with damage', () => {
    const cases = share(300, 3000);
    let unsure = 0;
    for (let seed = 1; seed <= cases; seed++) {
      const work = workOf(seed, true);
      const found = expectedTime(toRouteProblem(work), targetOf(work), optionsOf(work));
      const oracle = exhaustivePolicy(work, { first: 'time', among: 'serving' });
      expect.soft(found.milliseconds, `seed ${seed}`).toSatisfy((value: number) => sameSum(value, oracle.time));
      expect.soft(found.chances.damaged, `seed ${seed}`).toSatisfy((value: number) => sameSum(value, oracle.damage));
      expect.soft(found.isProved).toBe(true);
      if (found.others.length > 0) unsure++;
    }
    expect(unsure).toBeGreaterThan(cases / 2);
  });

  test('without damage it is the optimum over all policies whatever, useless tries included', () => {
    for (let seed = 1; seed <= share(120, 1000); seed++) {
      const work = workOf(seed, false);
      const found = expectedTime(toRouteProblem(work), targetOf(work), optionsOf(work));
      const oracle = exhaustivePolicy(work, { first: 'time', among: 'possible' });
      expect.soft(found.milliseconds, `seed ${seed}`).toSatisfy((value: number) => sameSum(value, oracle.time));
    }
  });

  test('least damage has the lowest chance of damage, and among its equals the least time', () => {
    for (let seed = 1; seed <= share(200, 2000); seed++) {
      const work = workOf(seed, true);
      const found = leastDamage(toRouteProblem(work), targetOf(work), optionsOf(work));
      const oracle = exhaustivePolicy(work, { first: 'damage', among: 'serving' });
      expect.soft(found.chanceOfDamage, `seed ${seed}`).toSatisfy((value: number) => sameSum(value, oracle.damage));
      const time =
        found.workMilliseconds + found.chances.damaged * work.damageLoss + found.chances.stranded * work.strandedLoss;
      expect.soft(time, `seed ${seed}`).toSatisfy((value: number) => sameSum(value, oracle.time));
    }
  });
});

test('simulated runs of the returned policy agree with its figures within 4.5 standard errors', () => {
  const runs = 20_000;
  for (let seed = 1; seed <= share(25, 200); seed++) {
    const work = workOf(seed, true);
    const found = expectedTime(toRouteProblem(work), targetOf(work), optionsOf(work));
    const simulated = simulatePolicy(work, found.policy, { runs, random: seeded(seed + 1_000_000) });
    const isNear = (expected: number, error: number) => (value: number) =>
      isClose(value, expected, { abs: 4.5 * error + 1e-6 });
    expect.soft(simulated.mean, `seed ${seed}`).toSatisfy(isNear(found.milliseconds, simulated.standardError));
    for (const [share, chance] of [
      [simulated.damaged, found.chances.damaged],
      [simulated.stranded, found.chances.stranded],
    ] as const)
      expect.soft(share, `seed ${seed}`).toSatisfy(isNear(chance, Math.sqrt((chance * (1 - chance)) / runs)));
  }
});
