import { front } from '#routes/front/front';
import { sharedBurden } from '#routes/front/shared-burden';
import type { Fact, RouteAction } from '#routes/problem/route-problem';
import { bestFound } from '#routes/search/best-found';
import { fewestSteps } from '#routes/search/fewest-steps';
import { DEFAULT_COUNTING } from '#routes/steps/counting-rules';
import { benchDevice } from './device.ts';

/**
 * How long do all routes of a device take? Seeded devices of 45 parts and 65 fasteners, every part a target, in one warm
 * process on one core. Times are CPU times of this process, so that a busy machine tells the same.
 */

const CLASS: Readonly<Record<string, number>> = { reusable: 5, resupplied: 3, removable: 1 };
const TOOL: Readonly<Record<string, number>> = {
  cup: 1,
  heater: 1,
  solvent: 1,
  'driver-tri': 1,
  'eject-pin': 2,
  stand: 5,
};
const points = {
  fastener: (action: RouteAction): number => CLASS[action.leaves ?? ''] ?? 5,
  tool: (tool: string): number => TOOL[tool] ?? 4,
};
const options = { rules: DEFAULT_COUNTING, points, limits: { nodes: 100_000 } };

const cpuMilliseconds = (work: () => void): number => {
  const before = process.cpuUsage();
  work();
  const { user, system } = process.cpuUsage(before);
  return (user + system) / 1000;
};

const median = (values: readonly number[]): number =>
  [...values].sort((a, b) => a - b)[values.length >> 1] ?? Number.NaN;

/** One row of the table: a device's figures, worked out anew on a fresh copy of the problem. */
const row = (seed: number): string => {
  const problem = benchDevice(seed);
  const targets = problem.actions.filter(({ kind }) => kind === 'lift').map(({ subject }): Fact => `free/${subject}`);
  const priority = problem.priorityParts.map((part): Fact => `free/${part}`);
  const steps = cpuMilliseconds(() => {
    for (const target of targets) fewestSteps(problem, target, options);
  });
  let proved = 0;
  let longest = 0;
  const each: number[] = [];
  for (const target of targets)
    each.push(
      cpuMilliseconds(() => {
        const found = bestFound(problem, target, options);
        if (found.kind === 'found' && found.proved) proved++;
        if (found.kind === 'found') longest = Math.max(longest, found.route.length);
      }),
    );
  const best = each.reduce((sum, time) => sum + time, 0);
  const fronts = cpuMilliseconds(() => {
    for (const target of priority) front(problem, target, options);
  });
  const burden = cpuMilliseconds(() => sharedBurden(problem, priority, options));
  const cells = [
    seed,
    longest,
    `${proved}/${targets.length}`,
    steps,
    best,
    median(each),
    Math.max(...each),
    fronts,
    burden,
  ];
  return `| ${cells.map((cell) => (typeof cell === 'number' ? Math.round(cell * 100) / 100 : cell)).join(' | ')} |`;
};

/** Prints the table for the given seeds, after one warm-up run. */
export const runStepsBench = (seeds: readonly number[], print: (line: string) => void): void => {
  row(2);
  print(
    '| seed | longest route | proved | fewest steps, all [ms] | best found, all [ms] | median [ms] | worst [ms] | fronts [ms] | shared burden [ms] |',
  );
  print('|---|---|---|---|---|---|---|---|---|');
  for (const seed of seeds) print(row(seed));
};

if (process.argv[1]?.endsWith('steps.bench.ts')) runStepsBench([1, 2, 3, 4, 5, 6, 7, 8], console.log);
