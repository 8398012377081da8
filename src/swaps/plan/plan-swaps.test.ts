// Long because: the properties of a plan share their small problems and the way a case is played.

import { describe, expect, test } from 'vitest';
import { isClose } from '#quantity/close';
import type { SeededNumbers } from '#quantity/seeded-numbers';
import { share } from '../../../test/share.ts';
import { diagnoseAll } from '../diagnosis/diagnose.ts';
import type { SwapRun } from '../model/swap-run.ts';
import { answerRun, type SimulatedDevice } from '../simulate/answer-run.ts';
import { drawTruth } from '../simulate/hidden-truth.ts';
import { wholeMoves } from './bench-moves.ts';
import { benchSetup } from './bench-setup.ts';
import { BestPlan } from './best-plan.ts';
import { defaultOdds } from './default-odds.ts';
import { exhaustiveCost } from './exhaustive.ts';
import { nextFrom, nextRun } from './next-run.ts';
import { PLAN_LIMITS, worthOf } from './plan-limits.ts';
import { planSwaps } from './plan-swaps.ts';
import { Planner } from './planner.ts';
import { leastSeconds, stopSeconds } from './prices.ts';
import type { SheetRun } from './sheet-run.ts';
import { leastPlan } from './solo-values.ts';
import { stateAfter } from './start-state.ts';
import type { PlannedPart, SwapProblem } from './swap-problem.ts';

const randomFrom = (seed: number): SeededNumbers => {
  let state = seed;
  return () => {
    state = (state * 1_664_525 + 1_013_904_223) % 2 ** 32;
    return state / 2 ** 32;
  };
};

const ROLES = ['battery', 'button', 'rear-camera', 'speaker'];

const partNamed = (id: string, random: SeededNumbers): PlannedPart => ({
  id,
  odds: defaultOdds(ROLES[Math.floor(random() * ROLES.length)]),
  layers: random() < 0.5 ? ['back'] : ['back', 'mid'],
  fitSeconds: 30 + Math.floor(random() * 120),
  checkSeconds: 10 + Math.floor(random() * 60),
  ...(random() < 0.6 ? { authoriseSeconds: 60 + Math.floor(random() * 200) } : {}),
  ...(random() < 0.6 ? { calibrateSeconds: 60 + Math.floor(random() * 200) } : {}),
  ...(random() < 0.2 ? { identitySeconds: 300 } : {}),
});

const problemOf = (ids: readonly string[], random: SeededNumbers, changed: Partial<SwapProblem> = {}): SwapProblem => ({
  parts: ids.map((id) => partNamed(id, random)),
  layers: {
    back: { openSeconds: 100 + Math.floor(random() * 400), closeSeconds: 100 + Math.floor(random() * 200) },
    mid: { openSeconds: 50 + Math.floor(random() * 300), closeSeconds: 50 + Math.floor(random() * 200) },
  },
  hosts: ['A', 'B'].map((id) => ({
    id,
    firmware: '1.0',
    homeLock: 'none',
    revisions: Object.fromEntries(ids.map((part) => [part, 'r1'])),
  })),
  donors: [],
  firmware: random() < 0.5 ? ['1.0'] : ['1.0', '1.1'],
  startSeconds: 40,
  soakSeconds: 120 + Math.floor(random() * 300),
  updateSeconds: 600,
  refitControl: random() < 0.5,
  hides: random() < 0.5 ? 0 : 0.3,
  ...changed,
});

/** What a planned run shows on a simulated device, as runs of its parts. */
const made = (
  problem: SwapProblem,
  run: SheetRun,
  at: { order: number; device: SimulatedDevice; earlier: readonly SwapRun[]; random: SeededNumbers },
): readonly SwapRun[] => {
  const fits = run.fits.map((fit) => {
    const home = fit.piece.startsWith('specimen:') ? fit.piece.slice('specimen:'.length) : undefined;
    return {
      host: run.host,
      hostRevision: 'r1',
      part: fit.part,
      piece: { key: fit.piece, ...(home === undefined ? {} : { home }), revision: 'r1', homeLock: 'none' as const },
      isOwn: fit.isOwn,
      handled: fit.handled,
      ...(run.firmware === undefined ? {} : { firmware: run.firmware }),
      calibrated: fit.calibrated,
      authorised: fit.authorised,
      identityMoved: fit.identityMoved,
      ready: true,
      settled: true,
    };
  });
  const earlier = new Map(problem.parts.map(({ id }) => [id, at.earlier.filter(({ part }) => part === id)]));
  const answers = answerRun(at.device, { order: at.order, fits, earlier }, at.random);
  return fits.map((fit, index) => {
    const answer = answers[index];
    return {
      ...fit,
      id: `run-${at.order}-${fit.part}`,
      order: at.order,
      arm: run.fits[index]?.arm ?? 'cross',
      outcome: answer?.outcome ?? 'unseen',
      ...(answer?.effect === undefined ? {} : { effect: answer.effect }),
      attributed: answer?.attributed ?? true,
      together: fits.filter(({ part, isOwn }) => part !== fit.part && !isOwn).map(({ part }) => part),
      evidence: [],
    };
  });
};

interface Worked {
  readonly runs: readonly SwapRun[];
  readonly sheets: readonly SheetRun[];
  readonly planner: Planner;
}

/** Works a device through with the planner to its end. */
const worked = (problem: SwapProblem, device: SimulatedDevice, random: SeededNumbers): Worked => {
  const planner = new Planner(problem, { ...PLAN_LIMITS, states: 0 });
  const runs: SwapRun[] = [];
  const sheets: SheetRun[] = [];
  for (;;) {
    const { run } = nextFrom(planner, runs);
    if (!run || sheets.length > 60) break;
    sheets.push(run);
    runs.push(...made(problem, run, { order: sheets.length, device, earlier: runs, random }));
  }
  return { runs, sheets, planner };
};

const EXPLANATIONS_DRAWN = [
  'accepted',
  'accepted',
  'bad-donor',
  'handling-damage',
  'missing-calibration',
  'firmware-bug',
  'unfixed-bug',
  'pairing-reversible',
  'pairing-latching',
] as const;

const deviceFor = (problem: SwapProblem, random: SeededNumbers): SimulatedDevice => ({
  firmware: problem.firmware,
  truths: new Map(
    problem.parts.map(({ id }) => [
      id,
      drawTruth(
        {
          explanations: EXPLANATIONS_DRAWN,
          hosts: ['A', 'B'],
          pieces: ['specimen:A', 'specimen:B'],
          firmware: problem.firmware,
          runs: 4,
        },
        random,
      ),
    ]),
  ),
});

describe('planSwaps, against trying everything', () => {
  test('the exact search costs what the best of all plans with as many runs costs', () => {
    for (let seed = 1; seed <= share(2, 40); seed++) {
      const random = randomFrom(seed);
      const problem = problemOf(['p'], random, { firmware: ['1.0'] });
      const setup = benchSetup(problem);
      const state = stateAfter(setup, []);
      const worth = worthOf(PLAN_LIMITS);
      const runs = 4 + (seed % 2);
      const stop = (at: typeof state): number => stopSeconds(setup, at, worth);
      const least = (at: typeof state): number => leastSeconds(setup, at, worth);
      const exact = new BestPlan(wholeMoves(setup), { stop, end: stop, least }, 1_000_000).step(state, runs).cost;
      expect(isClose(exact, exhaustiveCost(setup, state, { runs, worth }), { rel: 1e-9 })).toBe(true);
      // The bound is below it, and never falls as it looks further.
      const bounds = [2, 3, runs].map(
        (ahead) => leastPlan(setup, worth, { moves: wholeMoves(setup) }).step(state, ahead).cost,
      );
      expect(bounds).toEqual(bounds.toSorted((a, b) => a - b));
      expect(bounds.at(-1)).toBeLessThanOrEqual(exact + 1e-6);
    }
  });

  test('two parts at once: the same, and the sum of the parts alone is a bound', () => {
    for (let seed = 1; seed <= share(2, 20); seed++) {
      const problem = problemOf(['p', 'q'], randomFrom(seed), { firmware: ['1.0'] });
      const planner = new Planner(problem, { ...PLAN_LIMITS, states: 100_000, runs: 3 });
      const state = stateAfter(planner.setup, []);
      const oracle = exhaustiveCost(planner.setup, state, { runs: 3, worth: worthOf(PLAN_LIMITS) });
      expect(isClose(planner.best(state)?.cost ?? -1, oracle, { rel: 1e-9 })).toBe(true);
      expect(planner.bound(state)).toBeLessThanOrEqual(oracle + 1e-6);
    }
  });
});

describe('planSwaps, at simulated devices', () => {
  test('never goes back a firmware version, never runs a host opened before its baseline, ends', () => {
    for (let seed = 1; seed <= share(2, 120); seed++) {
      const random = randomFrom(seed);
      const problem = problemOf(['p', 'q', 'r'], random);
      const { sheets } = worked(problem, deviceFor(problem, random), random);
      expect(sheets.length).toBeLessThanOrEqual(60);
      for (const host of ['A', 'B']) {
        const own = sheets.filter((sheet) => sheet.host === host);
        const versions = own.map(({ firmware }) => problem.firmware.indexOf(firmware ?? ''));
        expect(versions).toEqual(versions.toSorted((a, b) => a - b));
        expect(own[0]?.fits.every(({ arm }) => arm === 'baseline')).toBe(true);
        const opened = sheets.findIndex(({ open }) => (open[host] ?? []).length > 0);
        expect(opened === -1 || opened > sheets.findIndex((sheet) => sheet.host === host)).toBe(true);
      }
    }
  });

  test('no connector is mated more often than is left, and a plan with little left says what stays open', () => {
    for (let seed = 1; seed <= share(2, 120); seed++) {
      const random = randomFrom(seed);
      const limited = (part: PlannedPart): PlannedPart => ({ ...part, matings: { A: 2, B: 1, 'specimen:A': 3 } });
      const free = problemOf(['p', 'q'], random);
      const problem = { ...free, parts: free.parts.map(limited) };
      const { runs } = worked(problem, deviceFor(problem, random), random);
      for (const { id, matings } of problem.parts)
        for (const [key, left] of Object.entries(matings ?? {})) {
          const used = runs.filter(
            (run) => run.part === id && run.handled && (run.host === key || run.piece.key === key),
          );
          expect(used.length).toBeLessThanOrEqual(left);
        }
    }
  });

  test('what the plan holds for decided is decided by the diagnosis', () => {
    let decided = 0;
    for (let seed = 1; seed <= share(3, 120); seed++) {
      const random = randomFrom(1000 + seed);
      const problem = problemOf(['p', 'q', 'r'], random);
      const device = deviceFor(problem, random);
      const { runs, planner } = worked(problem, device, random);
      const byPart = new Map(problem.parts.map(({ id }) => [id, runs.filter(({ part }) => part === id)]));
      const found = diagnoseAll(byPart, { firmware: problem.firmware });
      const state = stateAfter(planner.setup, runs);
      for (const [index, { part }] of planner.setup.parts.entries()) {
        const standing = state.parts[index]?.belief.standing ?? [];
        const named = found.get(part.id)?.standing.map(({ explanation }) => explanation) ?? [];
        expect(named).toEqual(standing);
        if (standing.length !== 1) continue;
        decided++;
        expect(found.get(part.id)?.decided).toBe(standing[0]);
      }
    }
    expect(decided).toBeGreaterThan(share(3, 120));
  });

  test('a surprising result is taken as it is: a part that fails its baseline', () => {
    const problem = problemOf(['p', 'q'], randomFrom(3), { hides: 0 });
    const first = nextRun(problem, []).run;
    expect(first?.fits.map(({ arm }) => arm)).toEqual(['baseline', 'baseline']);
    if (!first) return;
    const device: SimulatedDevice = { firmware: problem.firmware, truths: new Map() };
    const passed = made(problem, first, { order: 1, device, earlier: [], random: randomFrom(1) });
    const failed = passed.map((run): SwapRun => (run.part === 'p' ? { ...run, outcome: 'failed', effect: 'E5' } : run));
    const next = nextRun(problem, failed);
    expect(next.run).toBeDefined();
    expect(next.standing.find(({ part }) => part === 'p')?.explanations).not.toContain('accepted');
  });

  test('nothing depends on the names of parts and hosts, nor on the order of the parts', () => {
    const problem = problemOf(['p', 'q'], randomFrom(11));
    const renamed: SwapProblem = {
      ...problem,
      parts: problem.parts.map((part) => ({ ...part, id: { p: 'z', q: 'a' }[part.id] ?? part.id })).toReversed(),
      hosts: problem.hosts.map((host) => ({
        ...host,
        id: host.id === 'A' ? 'Zeta' : 'Alpha',
        revisions: { z: 'r1', a: 'r1' },
      })),
    };
    const limits = { cases: 2, states: 0 };
    const [one, other] = [planSwaps(problem, limits), planSwaps(renamed, limits)];
    expect(other.expected).toEqual(one.expected);
    expect(other.bound).toEqual(one.bound);
    expect(other.lines.map(({ untilMinutes }) => untilMinutes)).toEqual(
      one.lines.map(({ untilMinutes }) => untilMinutes),
    );
  });
});

describe('planSwaps, what it says', () => {
  const plain = problemOf(['p'], randomFrom(5), { firmware: ['1.0'], hides: 0 });
  const [part] = plain.parts;

  test('pairing and a bug stay together without an authorised step, and that is what is missing', () => {
    if (!part) return;
    const { authoriseSeconds: _, identitySeconds: __, ...bare } = part;
    const plan = planSwaps({ ...plain, parts: [{ ...bare, odds: defaultOdds('battery') }] }, { cases: 1 });
    const paired = plan.prospects.find(({ truth }) => truth === 'pairing-reversible');
    expect(paired?.standing).toEqual(expect.arrayContaining(['unfixed-bug', 'pairing-reversible']));
    expect(paired?.missing).toContain('authorised-step');
    const offered = { ...bare, authoriseSeconds: 60, odds: defaultOdds('battery') };
    const told = planSwaps({ ...plain, parts: [offered] }, { cases: 1 }).prospects;
    expect(told.find(({ truth }) => truth === 'pairing-reversible')?.standing).toEqual(['pairing-reversible']);
  });

  test('one specimen alone tells nothing, one more does', () => {
    const alone = planSwaps({ ...plain, hosts: plain.hosts.slice(0, 1) }, { cases: 1 });
    expect(alone.prospects.every(({ standing }) => standing.length > 1)).toBe(true);
    expect(alone.oneMoreSpecimen?.decided.map(({ truth }) => truth)).toContain('accepted');
  });

  test('minutes that run out cut the sheet and name what stays open', () => {
    const plan = planSwaps({ ...plain, minutes: 15 }, { cases: 1 });
    expect(plan.outOfTime?.open).toEqual(['p']);
    expect(plan.lines[(plan.outOfTime?.lastRun ?? 0) - 1]?.untilMinutes ?? 0).toBeLessThanOrEqual(15);
  });

  test('unlikely parts of one opening are fitted together, and it says why', () => {
    const two = problemOf(['p', 'q'], randomFrom(8), { firmware: ['1.0'], hides: 0 });
    const parts = two.parts.map((one) => ({ ...one, layers: ['back'], odds: defaultOdds('button') }));
    const plan = planSwaps({ ...two, parts }, { cases: 1, states: 0 });
    const pooled = plan.lines.find((line) => line.pooled)?.pooled;
    expect(pooled?.parts.toSorted()).toEqual(['p', 'q']);
    expect(pooled?.paysByRuns).toBe(true);
    expect(pooled?.expectedRuns).toBeLessThan(2);
  });
});
