import { expect, test } from 'vitest';
import { swapRuns } from '../../../test/records/swap-runs.ts';
import { benchRuns, seats } from './bench-runs.ts';
import { benchSetup } from './bench-setup.ts';
import { defaultOdds } from './default-odds.ts';
import { stateAfter } from './start-state.ts';
import type { SwapProblem } from './swap-problem.ts';

const PROBLEM: SwapProblem = {
  parts: [{ id: 'camera', odds: defaultOdds('rear-camera'), layers: ['back'], fitSeconds: 60, checkSeconds: 30 }],
  layers: { back: { openSeconds: 120, closeSeconds: 120 } },
  hosts: ['A', 'B'].map((id) => ({ id, firmware: '5.0.1', homeLock: 'none', revisions: { camera: 'R1' } })),
  donors: [],
  firmware: ['5.0.1', '5.1.0'],
  startSeconds: 60,
  soakSeconds: 60,
  updateSeconds: 600,
  refitControl: false,
  hides: 0.3,
};

test('no host is updated while the only foreign piece was hidden: a bug that the update mends would never be seen', () => {
  const setup = benchSetup(PROBLEM);
  const looked = swapRuns([
    ['A+a', 'E0', { arm: 'baseline' }],
    ['B+b', 'E0', { arm: 'baseline' }],
    ['A+b', 'E0'],
  ]);
  const hidden = looked.map((run) => (run.isOwn ? run : { ...run, outcome: 'unseen' as const }));
  const newest = (runs: typeof looked): boolean =>
    seats(setup, stateAfter(setup, runs)).some(({ firmware }) => firmware === 1);
  expect([newest(hidden), newest(looked)]).toEqual([false, true]);
  expect(benchRuns(setup, stateAfter(setup, hidden)).every(({ firmware }) => firmware === 0)).toBe(true);
});
