import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { readAssessment } from '#record/read/read-assessment';
import type { Assessment } from '#record/schema/assessment';
import { benchSetup } from '#swaps/plan/bench-setup';
import { stateAfter } from '#swaps/plan/start-state';
import { fitsOf, swapRecord } from '../../../test/fixtures/verdict-swaps.ts';
import { diagnosedSwaps } from './diagnosed-swaps.ts';
import { statedProblem } from './swap-plan-of.ts';

const BENCH = { firmware: ['5.0.1', '5.1.0'], hosts: ['a', 'b'], parts: { camera: {} } };

test('a donor out of a specimen is known to the plan by the key, revision and lock it has in the runs', () => {
  const torn = { kind: 'salvaged-locked-unit', item: 'torn' };
  const record = swapRecord(
    fitsOf('camera', [
      ['a+a', 'E0', { arm: 'baseline' }],
      ['a+e', 'E5', { arm: 'cross', donor: torn }],
    ]),
    {
      specimens: { a: { revision: 'R1' }, b: { revision: 'R1' }, e: { revision: 'R2', accountLock: 'locked' } },
      swapBench: {
        ...BENCH,
        parts: { camera: { connectors: [{ fastener: 'plug', rated: 9 }] } },
        donors: { torn: { part: 'camera', kind: 'salvaged-locked-unit', specimen: 'e' } },
      },
    },
  );
  const { problem } = statedProblem(record);
  const runs = diagnosedSwaps(record).runs.get('camera') ?? [];
  const setup = benchSetup(problem);
  expect(setup.parts[0]?.pieces.at(-1)).toEqual(runs.at(-1)?.piece);
  expect(runs.at(-1)?.piece).toMatchObject({ key: 'specimen:e', revision: 'R2', homeLock: 'locked' });
  expect(problem.parts[0]?.matings?.['specimen:e']).toBe(9);
  expect(stateAfter(setup, runs).parts[0]?.places[0]?.piece).toBe(2);
});

test('in tarn-5 every piece that a run fitted into a host of the bench is a piece of the plan', () => {
  const bytes = readFileSync(new URL('../../../examples/tarn-5/assessment.yaml', import.meta.url));
  const { assessment: record } = readAssessment({ fileName: 'assessment.yaml', bytes });
  if (!record) throw new Error('tarn-5 cannot be read');
  const { problem } = statedProblem(record);
  const setup = benchSetup(problem);
  for (const { part, pieces } of setup.parts)
    for (const { piece, host } of diagnosedSwaps(record).runs.get(part.id) ?? [])
      if (problem.hosts.some(({ id }) => id === host)) expect(pieces.map(({ key }) => key)).toContain(piece.key);
});

test('a plan begins with the firmware of the first fit that stands, not with one that was corrected or withdrawn', () => {
  const fits = fitsOf('camera', [
    ['a+a', 'E0', { firmware: '5.1.0' }],
    ['a+a', 'E0', { firmware: '5.1.0' }],
    ['a+a', 'E0', { corrects: 'camera-2', run: 2, firmware: '5.0.1' }],
    ['a+a', 'E0', { corrects: 'camera-1', withdrawn: true }],
  ]);
  const record: Assessment = swapRecord(fits, { swapBench: BENCH });
  expect(statedProblem(record).problem.hosts[0]?.firmware).toBe('5.0.1');
});
