import type { SeededNumbers } from '#quantity/seeded-numbers';
import type { RunSetting, SwapRun } from '../model/swap-run.ts';
import { answerRun, type PartAnswer, type SimulatedDevice } from './answer-run.ts';

/** One start of one host: what is fitted, and whether its effect is taken down as that of the whole run. */
export interface PlannedStart {
  readonly fits: readonly RunSetting[];
  readonly isPooled?: boolean;
}

/**
 * What does a simulated device show in a row of starts? The runs of each part, as a tester takes them down, in the order of the
 * starts. The same seed gives the same runs.
 */
export const simulateRuns = (
  device: SimulatedDevice,
  starts: readonly PlannedStart[],
  random: SeededNumbers,
): ReadonlyMap<string, readonly SwapRun[]> => {
  const runs = new Map<string, SwapRun[]>();
  for (const [place, start] of starts.entries()) {
    const order = place + 1;
    const answers = answerRun(device, { ...start, order, earlier: runs }, random);
    for (const [index, fit] of start.fits.entries()) {
      const answer = answers[index];
      if (answer) runs.set(fit.part, [...(runs.get(fit.part) ?? []), runOf(order, start, { fit, answer })]);
    }
  }
  return runs;
};

interface Answered {
  readonly fit: RunSetting;
  readonly answer: PartAnswer;
}

const runOf = (order: number, { fits }: PlannedStart, { fit, answer }: Answered): SwapRun => ({
  ...fit,
  id: `run-${order}-${fit.part}`,
  order,
  outcome: answer.outcome,
  ...(answer.effect === undefined ? {} : { effect: answer.effect }),
  attributed: answer.attributed,
  together: fits.filter(({ part }) => part !== fit.part).map(({ part }) => part),
  foreignBeside: fits.filter(({ part, isOwn }) => part !== fit.part && !isOwn).map(({ part }) => part),
  evidence: [],
});
