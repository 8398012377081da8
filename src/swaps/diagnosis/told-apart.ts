import type { EffectCode, SwapRun } from '../model/swap-run.ts';
import type { Finding } from './weighing.ts';

/**
 * How do the runs of a part read once pooled runs are told apart, and a refusal of the own part is called one? An own part that is no
 * longer taken after a foreign piece, in a host that took it after being refitted before (the refit control), is E7 whatever the
 * screen showed. Without the control it keeps the code it was given: damage would look the same.
 */
export const toldApart = (ordered: readonly SwapRun[], findings: readonly Finding[]): readonly SwapRun[] => {
  const runs = ordered.map((run, place) => {
    const isTold = !run.attributed && (findings[place]?.outcome ?? 'unseen') !== 'unseen';
    return isTold ? { ...run, attributed: true } : run;
  });
  return runs.map((run, place) => (isOwnRefused(run, runs.slice(0, place)) ? { ...run, effect: E7 } : run));
};

const E7: EffectCode = 'E7';

const isOwnRefused = (run: SwapRun, earlier: readonly SwapRun[]): boolean => {
  if (!run.isOwn || run.authorised || !isTroubled(run)) return false;
  const before = earlier.filter(({ host }) => host === run.host);
  const crossed = before.findIndex(({ isOwn }) => !isOwn);
  return crossed >= 0 && before.slice(0, crossed).some(isPassedRefit);
};

const isPassedRefit = ({ isOwn, handled, outcome }: SwapRun): boolean => isOwn && handled && outcome === 'passed';

/** Was something the matter in a run, and is it known to have been this part? */
const isTroubled = ({ outcome, attributed }: SwapRun): boolean =>
  attributed && (outcome === 'failed' || outcome === 'reduced');

/** Is what a run showed known to be of this part? */
export const isSeenAlone = (run: SwapRun): boolean => run.outcome === 'passed' || isTroubled(run);

/** Is a run a refit control: the own part taken out and put back, before its host had any foreign piece? */
export const isRefitControl = (run: SwapRun, runs: readonly SwapRun[]): boolean =>
  run.isOwn && run.handled && !runs.some(({ host, isOwn, order }) => host === run.host && !isOwn && order < run.order);

/** Is a run a foreign fit as fitted: nothing authorised, calibrated or moved? */
export const isPlainForeign = (run: SwapRun): boolean =>
  !run.isOwn && !run.authorised && !run.calibrated && !run.identityMoved;
