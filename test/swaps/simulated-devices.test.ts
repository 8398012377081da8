import { describe, expect, test } from 'vitest';
import { seededNumbers } from '#quantity/seeded-numbers';
import { diagnoseAll, type PartDiagnosis } from '#swaps/diagnosis/diagnose';
import { EXPLANATIONS } from '#swaps/model/explanation';
import type { SwapRun } from '#swaps/model/swap-run';
import { type HiddenTruth, suspicionOf } from '#swaps/simulate/hidden-truth';
import { isMet, isSameForm } from '#swaps/simulate/met-truth';
import { simulateRuns } from '#swaps/simulate/simulate-runs';
import { share } from '../share.ts';
import { type BenchRange, drawBench } from './random-bench.ts';

/** One part of a simulated device after its runs. */
interface Outcome {
  readonly truth: HiddenTruth;
  readonly runs: readonly SwapRun[];
  readonly diagnosis: PartDiagnosis;
  readonly firmware: readonly string[];
}

/** What became of the truth about one part? Undefined where all is well, else the fault in words. */
const faultOf = ({ truth, runs, diagnosis, firmware }: Outcome): string | undefined => {
  const real = suspicionOf(truth, runs);
  const wasMet = isMet(truth, runs, firmware);
  const stands = diagnosis.standing.some(({ suspicions }) => suspicions.some((form) => isSameForm(form, real)));
  if (wasMet && !stands) return 'the truth is excluded';
  if (wasMet && diagnosis.decided && diagnosis.decided !== truth.explanation) return `decided ${diagnosis.decided}`;
  if (wasMet) return undefined;
  if (diagnosis.decided && diagnosis.decided !== 'accepted') return `never met, yet decided ${diagnosis.decided}`;
  const isQuiet = runs.every(({ outcome, attributed }) => outcome === 'passed' || outcome === 'unseen' || !attributed);
  return isQuiet ? undefined : 'never met, yet it did something';
};

/** Faults and decisions on so many devices, each of its own seed. */
const onDevices = (devices: number, range: BenchRange) => {
  const faults: string[] = [];
  const decided = new Set<string>();
  for (let seed = 1; seed <= devices; seed++) {
    const random = seededNumbers(seed);
    const bench = drawBench(random, range);
    const runs = simulateRuns(bench, bench.starts, random);
    for (const [part, diagnosis] of diagnoseAll(runs, { firmware: bench.firmware })) {
      const truth = bench.truths.get(part) ?? { explanation: 'accepted', code: 'E0' };
      const fault = faultOf({ truth, runs: runs.get(part) ?? [], diagnosis, firmware: bench.firmware });
      if (fault) faults.push(`seed ${seed}, ${part}, truth ${JSON.stringify(truth)}: ${fault}`);
      if (diagnosis.decided) decided.add(diagnosis.decided);
    }
  }
  return { faults, decided };
};

describe('on simulated devices with a hidden truth the truth is never excluded and "decided" is never wrong', () => {
  test('several parts, runs told apart or not, no test error, no masking unnoticed', () => {
    const explanations = EXPLANATIONS.filter((explanation) => explanation !== 'test-error');
    const { faults, decided } = onDevices(share(250, 10_000), { parts: 3, starts: 14, explanations });
    expect(faults).toEqual([]);
    expect(decided.size).toBeGreaterThanOrEqual(6);
  });

  test('one part alone, one run of which may have been misread', () => {
    expect(onDevices(share(150, 5000), { parts: 1, starts: 12 }).faults).toEqual([]);
  });
});
