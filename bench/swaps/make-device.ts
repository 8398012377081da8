import { seededNumbers } from '../../src/quantity/seeded-numbers.ts';
import { EXPLANATIONS, type Explanation } from '../../src/swaps/model/explanation.ts';
import { defaultOdds } from '../../src/swaps/plan/default-odds.ts';
import type { PlannedPart, SwapProblem } from '../../src/swaps/plan/swap-problem.ts';
import type { SimulatedDevice } from '../../src/swaps/simulate/answer-run.ts';
import { drawTruth } from '../../src/swaps/simulate/hidden-truth.ts';

const ROLES: readonly (readonly [role: string, layers: readonly string[]])[] = [
  ['battery', ['back']],
  ['display', ['front']],
  ['rear-camera', ['back']],
  ['button', ['back', 'mid']],
  ['speaker', ['back', 'mid']],
  ['microphone', ['back', 'board']],
  ['charging-port', ['back', 'mid']],
  ['front-camera', ['back']],
  ['vibration-motor', ['back', 'mid']],
  ['antenna', ['back']],
  ['sensor', ['back', 'board']],
  ['wireless-coil', ['back']],
];

const partOf = (role: string, layers: readonly string[], index: number): PlannedPart => ({
  id: role,
  odds: defaultOdds(role),
  layers,
  fitSeconds: 60 + 10 * index,
  checkSeconds: 20 + 5 * index,
  authoriseSeconds: 180,
  calibrateSeconds: 120,
});

/** Twelve parts of an invented handset, two specimens of one revision, two firmware versions. */
export const swapProblem = (): SwapProblem => ({
  parts: ROLES.map(([role, layers], index) => partOf(role, layers, index)),
  layers: {
    front: { openSeconds: 420, closeSeconds: 300 },
    back: { openSeconds: 300, closeSeconds: 200 },
    mid: { openSeconds: 240, closeSeconds: 180 },
    board: { openSeconds: 400, closeSeconds: 400 },
  },
  hosts: ['A', 'B'].map((id) => ({
    id,
    firmware: '1.0',
    homeLock: 'none',
    revisions: Object.fromEntries(ROLES.map(([role]) => [role, 'R1'])),
  })),
  donors: [],
  firmware: ['1.0', '1.1'],
  startSeconds: 60,
  soakSeconds: 300,
  updateSeconds: 600,
  refitControl: false,
  hides: 0.3,
});

/** Explanations that the bench of these devices has no place for: everything is settled, ready, of one revision and not locked. */
const NO_PLACE: readonly Explanation[] = [
  'revision-mismatch',
  'gauge-or-cache',
  'donor-home-locked',
  'host-not-ready',
  'test-error',
];

/** A device whose truths are drawn from the odds of its parts. */
export const drawDevice = (problem: SwapProblem, seed: number): SimulatedDevice => {
  const random = seededNumbers(seed);
  const truths = problem.parts.map(({ id, odds }) => {
    const weights = EXPLANATIONS.map((one) => (NO_PLACE.includes(one) ? 0 : (odds[one] ?? 0)));
    let left = random() * weights.reduce((sum, weight) => sum + weight, 0);
    const index = weights.findIndex((weight) => {
      left -= weight;
      return left < 0;
    });
    const choices = {
      explanations: [EXPLANATIONS[index] ?? 'accepted'],
      hosts: problem.hosts.map((host) => host.id),
      pieces: problem.hosts.map((host) => `specimen:${host.id}`),
      firmware: problem.firmware,
      runs: 2,
    };
    return [id, drawTruth(choices, random)] as const;
  });
  return { firmware: problem.firmware, truths: new Map(truths) };
};
