import { expect, test } from 'vitest';
import { seededNumbers } from '#quantity/seeded-numbers';
import type { Explanation } from '#swaps/model/explanation';
import { swapRecord } from '../../../test/fixtures/verdict-swaps.ts';
import { drawnDevice } from './drawn-device.ts';
import { type PlayedPart, playPlan } from './play-plan.ts';
import { statedProblem } from './swap-plan-of.ts';

const STEPS = { authorisation: true, authorise: 120, calibration: true, calibrate: 60 };
const bench = swapRecord(
  {},
  {
    swapBench: {
      start: 60,
      soak: 60,
      close: 120,
      hides: 0.1,
      firmware: ['5.0.1', '5.1.0'],
      hosts: ['a', 'b'],
      parts: {
        camera: { open: 300, fit: 60, check: 60, ...STEPS },
        buzzer: { open: 200, fit: 60, check: 60, ...STEPS },
      },
      donors: { 'cam-x': { part: 'camera', kind: 'salvaged-locked-unit', revision: 'R1', homeLock: 'locked' } },
    },
  },
);
const { problem, assumptions } = statedProblem(bench);

/** Plays by the policy alone: the exact search is tested with the planner. */
const played = (truths: ReadonlyMap<string, Explanation>, seed: number): readonly PlayedPart[] => {
  const random = seededNumbers(seed);
  const { problem } = statedProblem(bench, { parts: [...truths.keys()] });
  const game = playPlan({ problem, device: drawnDevice(problem, random, { truths }), random, limits: { states: 0 } });
  for (let turn = game.next(); ; turn = game.next()) if (turn.done) return turn.value;
};

const TRUTHS: readonly Explanation[] = [
  'accepted',
  'bad-donor',
  'handling-damage',
  'missing-calibration',
  'firmware-bug',
  'unfixed-bug',
  'pairing-reversible',
  'pairing-latching',
  'donor-home-locked',
];

test.each(TRUTHS)('the plan played against %s names it, or leaves it standing and says what is open', (truth) => {
  const [camera] = played(new Map([['camera', truth]]), 1);
  expect(['named', 'standing']).toContain(camera?.outcome);
  if (camera?.outcome === 'standing') expect(camera.diagnosis.gaps.length).toBeGreaterThan(0);
});

test('a lock is named as latching or not, by the policy alone', () => {
  for (const truth of ['pairing-reversible', 'pairing-latching'] as const)
    expect(played(new Map([['camera', truth]]), 4)[0]).toMatchObject({ outcome: 'named', truth });
});

test('what never could show counts as accepted: a locked unit of which no piece is fitted', () => {
  const [buzzer] = played(new Map([['buzzer', 'donor-home-locked']]), 1);
  expect([buzzer?.truth, buzzer?.hidden.explanation]).toEqual(['accepted', 'donor-home-locked']);
});

test('the same seed plays the same, and drawn devices fit the bench', () => {
  const once = played(new Map([['buzzer', 'bad-donor']]), 9);
  expect(played(new Map([['buzzer', 'bad-donor']]), 9)).toEqual(once);
  const drawn = Array.from({ length: 60 }, (_, seed) => drawnDevice(problem, seededNumbers(seed)).truths.get('buzzer'));
  expect(drawn.map((truth) => truth?.explanation)).not.toContain('donor-home-locked');
  expect(new Set(drawn.map((truth) => truth?.explanation)).size).toBeGreaterThan(5);
});

test('the problem of a bench: hosts in the order of the record, opening by layer, what is not recorded named', () => {
  expect(problem.hosts.map(({ id, firmware }) => [id, firmware])).toEqual([
    ['a', '5.0.1'],
    ['b', '5.0.1'],
  ]);
  expect(problem.layers).toEqual({
    'to/camera': { openSeconds: 300, closeSeconds: 120 },
    'to/buzzer': { openSeconds: 200, closeSeconds: 120 },
  });
  expect(problem.donors.map(({ id }) => id)).toEqual(['cam-x']);
  expect(assumptions.join('\n')).toContain(
    'firmware of Specimen A: 5.0.1 (default of this tool, no source; to be edited)',
  );
  expect(statedProblem(bench, { parts: ['buzzer'], minutes: 30 }).problem).toMatchObject({
    parts: [{ id: 'buzzer' }],
    donors: [],
    minutes: 30,
  });
});
