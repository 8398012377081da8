import { expect, test } from 'vitest';
import { defaultOdds } from './default-odds.ts';
import { expectedMinutes } from './follow-plan.ts';
import { PLAN_LIMITS } from './plan-limits.ts';
import { Planner, PlanTables } from './planner.ts';
import { prospects } from './prospects.ts';
import type { SwapProblem } from './swap-problem.ts';

const part = (id: string, role: string) => ({
  id,
  odds: defaultOdds(role),
  layers: ['back'],
  fitSeconds: 60,
  checkSeconds: 30,
  authoriseSeconds: 90,
});

const PROBLEM: SwapProblem = {
  parts: [part('camera', 'rear-camera'), part('cell', 'battery')],
  layers: { back: { openSeconds: 120, closeSeconds: 120 } },
  hosts: ['A', 'B'].map((id) => ({ id, firmware: '5.0.1', homeLock: 'none', revisions: { camera: 'R1' } })),
  donors: [],
  firmware: ['5.0.1'],
  startSeconds: 60,
  soakSeconds: 60,
  updateSeconds: 600,
  refitControl: false,
  hides: 0.2,
};

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
