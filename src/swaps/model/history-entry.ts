import type { SwapRun } from './swap-run.ts';

/**
 * Is an entry in the repair history (E1) all that is left of an effect once a step was taken? Then the step cleared it: the run counts
 * as passed, and keeps its code. Only where the part did worse as fitted on the same firmware; where it showed no more than the entry
 * before, the step changed nothing.
 */
export const withHistoryEntries = (runs: readonly SwapRun[]): SwapRun[] =>
  runs.map((run) => (isEntryLeft(run, runs) ? { ...run, outcome: 'passed' } : run));

const isEntryLeft = (run: SwapRun, runs: readonly SwapRun[]): boolean =>
  run.effect === 'E1' &&
  run.outcome === 'failed' &&
  run.attributed &&
  isForeignAfterStep(run) &&
  runs.some((other) => other.firmware === run.firmware && isWorseAsFitted(other));

const isForeignAfterStep = ({ isOwn, authorised, calibrated, identityMoved }: SwapRun): boolean =>
  !isOwn && (authorised || calibrated || identityMoved);

const isWorseAsFitted = (run: SwapRun): boolean =>
  !run.isOwn &&
  !isForeignAfterStep(run) &&
  run.attributed &&
  run.outcome !== 'unseen' &&
  run.effect !== 'E0' &&
  run.effect !== 'E1';
