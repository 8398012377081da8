import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { readAssessment } from '#record/read/read-assessment';
import type { Assessment } from '#record/schema/assessment';
import { answerSwaps } from './answer-swaps.ts';
import type { BenchPlan } from './plan-of-bench.ts';

const file = new URL('../../../examples/tarn-5/assessment.yaml', import.meta.url);
const tarn = readAssessment({ fileName: 'assessment.yaml', bytes: readFileSync(file) }).assessment as Assessment;

/** The bench of the example before its first run, with the coil alone and no step at hand that would tell a lock from a bug. */
const coilAlone: Assessment = {
  ...tarn,
  swaps: {},
  swapBench: {
    ...tarn.swapBench,
    hosts: ['c', 'd'],
    refitControl: true,
    parts: { coil: { ...tarn.swapBench?.parts?.coil, authorisation: false } },
    donors: {},
  },
};

const plansOf = (document: Assessment): readonly { plan: BenchPlan; last: boolean }[] =>
  [...answerSwaps({ document, wants: 'plan' })].map((answer) => {
    if (answer.stage !== 'plan') throw new Error(`no plan: ${JSON.stringify(answer)}`);
    return answer;
  });

test('the runs ahead come first, then how long they take, then what they cannot tell', () => {
  const plans = plansOf(coilAlone);
  expect(plans.map(({ last }) => last)).toEqual([false, false, false, true]);
  const [sheet, length, open, whole] = plans.map(({ plan }) => plan);
  expect([sheet?.length, sheet?.undecided, length?.undecided, open?.oneMore]).toEqual(Array(4).fill(undefined));
  expect(sheet?.runs[0]?.fits).toEqual([expect.stringMatching(/own part, left in place \(baseline/)]);
  expect(sheet?.runs.some(({ fits }) => fits.some((fit) => fit.includes('own part out and in again')))).toBe(true);
  expect(whole?.runs).toEqual(sheet?.runs);
  expect(whole?.length).toMatch(/^All runs still to be made: about \d+ min\./);
  expect(whole?.undecided?.join()).toContain('cannot be told apart. It would take');
  expect(whole?.oneMore).toBeDefined();
  // Every specimen is set free by some run, the last of them at the end.
  expect(whole?.runs.flatMap(({ released }) => released)).toHaveLength(2);
  expect(whole?.runs.at(-1)?.released).not.toEqual([]);
});
