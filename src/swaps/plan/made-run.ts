import type { Outcome } from '../model/swap-run.ts';
import type { OrderedSetting } from '../signature/placed-run.ts';

/** What a run can show when it is seen. */
export type Seen = Exclude<Outcome, 'unseen'>;

/** A run made in thought or at the bench, with what it showed. */
export type MadeRun = OrderedSetting & { readonly outcome: Outcome };

/** How did trouble show last? Failing, where none was seen. */
export const troubleSeen = (runs: readonly MadeRun[]): Seen =>
  runs.findLast(({ outcome }) => outcome === 'failed' || outcome === 'reduced')?.outcome === 'reduced'
    ? 'reduced'
    : 'failed';

/** In which hosts was a refit control seen: the own part taken out and put back before any foreign piece? */
export const controlledHosts = (runs: readonly MadeRun[]): readonly string[] => {
  const crossed = new Set<string>();
  const controlled = new Set<string>();
  for (const { host, isOwn, handled, outcome } of runs) {
    if (!isOwn) crossed.add(host);
    else if (handled && outcome !== 'unseen' && !crossed.has(host)) controlled.add(host);
  }
  return [...controlled];
};
