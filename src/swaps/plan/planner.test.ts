import { expect, test } from 'vitest';
import { twoHosts } from '../../../test/records/two-hosts.ts';
import { defaultOdds } from './default-odds.ts';
import { expectedMinutes } from './follow-plan.ts';
import { PLAN_LIMITS } from './plan-limits.ts';
import { Planner, PlanTables } from './planner.ts';
import { prospects } from './prospects.ts';

const part = (id: string, role: string) => ({
  id,
  odds: defaultOdds(role),
  layers: ['back'],
  fitSeconds: 60,
  checkSeconds: 30,
  authoriseSeconds: 90,
});

const PROBLEM = twoHosts([part('camera', 'rear-camera'), part('cell', 'battery')], { hides: 0.2 });

test('tables that drop all they kept between two cases and two truths change no figure', () => {
  const limits = { ...PLAN_LIMITS, states: 0 };
  const [keeping, forgetful] = [new PlanTables(), new PlanTables(0)];
  const planner = new Planner(PROBLEM, limits, forgetful);
  expect(planner.lightened()).toBe(planner);
  const minutes = expectedMinutes(planner, []);
  expect(planner.lightened()).not.toBe(planner);
  expect(minutes).toEqual(expectedMinutes(new Planner(PROBLEM, limits, keeping), []));
  expect(prospects(PROBLEM, limits, forgetful)).toEqual(prospects(PROBLEM, limits, keeping));
});
