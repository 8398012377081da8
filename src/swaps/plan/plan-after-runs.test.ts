import { expect, test } from 'vitest';
import { swapRuns } from '../../../test/records/swap-runs.ts';
import { twoHosts } from '../../../test/records/two-hosts.ts';
import { defaultOdds } from './default-odds.ts';
import { planSwaps } from './plan-swaps.ts';

/** One part in two hosts, with no step offered: a lock and an unmended bug cannot be told apart. */
const PROBLEM = twoHosts([
  { id: 'camera', odds: defaultOdds('rear-camera'), layers: ['back'], fitSeconds: 60, checkSeconds: 30 },
]);

test('once a part is decided both ways there is no run left, no truth in question, and nothing takes less', () => {
  const taken = swapRuns([
    ['A+a', 'E0', { arm: 'baseline' }],
    ['B+b', 'E0', { arm: 'baseline' }],
    ['A+b', 'E0'],
    ['B+a', 'E0'],
  ]);
  const { lines, prospects, bound } = planSwaps(PROBLEM, {}, taken);
  expect([lines, prospects, bound.isProvedBest]).toEqual([[], [], true]);
});

test('a truth that the runs excluded is in question no more; what nothing at hand tells apart stays', () => {
  const locked = swapRuns([
    ['A+a', 'E0', { arm: 'baseline' }],
    ['B+b', 'E0', { arm: 'baseline' }],
    ['A+b', 'E5'],
    ['B+a', 'E5'],
    ['A+a', 'E0'],
    ['B+b', 'E0'],
  ]);
  const before = planSwaps(PROBLEM).prospects.map(({ truth }) => truth);
  const { prospects } = planSwaps(PROBLEM, {}, locked);
  expect(before).toEqual(expect.arrayContaining(['bad-donor', 'pairing-latching', 'pairing-reversible']));
  expect(prospects.map(({ truth }) => truth)).toEqual(['unfixed-bug', 'pairing-reversible']);
});
