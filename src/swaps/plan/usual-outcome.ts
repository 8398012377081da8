import type { RunSetting } from '../model/swap-run.ts';
import type { Allowed } from '../signature/allowed.ts';
import { type MadeRun, type Seen, troubleSeen } from './made-run.ts';

/** What is usual for a run: whose part it is, how trouble showed before, and what was seen when it was looked at just so. */
export interface Usual {
  readonly isOwn: boolean;
  readonly trouble: Seen;
  readonly same: Seen | undefined;
}

/** What is usual for a further run after these? */
export const usualFor = (runs: readonly MadeRun[], planned: RunSetting): Usual => ({
  isOwn: planned.isOwn,
  trouble: troubleSeen(runs),
  same: seenAsIs(runs, planned),
});

/**
 * What does a run typically show where more than one outcome is allowed? A plan reckons with it; what is seen may differ, and is then
 * taken as it is. What was done just so before shows what it did then; an own part is taken to pass, a foreign one to
 * fail, or to be reduced where trouble showed so before.
 */
export const typically = (allowed: Allowed, { isOwn, trouble, same }: Usual): Seen => {
  const [only, other] = allowed;
  if (only !== undefined && other === undefined) return only;
  if (same !== undefined && allowed.includes(same)) return same;
  if (!allowed.includes('failed')) return 'passed';
  return allowed.includes('passed') && isOwn ? 'passed' : trouble;
};

/** What did the same show when it was last done? Of a mere look, whatever was done to the host last, if that left it so. */
const seenAsIs = (runs: readonly MadeRun[], planned: RunSetting): Seen | undefined => {
  const seen = runs.filter(({ host, outcome }) => host === planned.host && outcome !== 'unseen');
  const last = planned.handled ? seen.findLast((run) => run.handled && isAlike(run, planned)) : seen.at(-1);
  return last && isAlike(last, planned) && last.outcome !== 'unseen' ? last.outcome : undefined;
};

const isAlike = (run: RunSetting, planned: RunSetting): boolean =>
  run.piece.key === planned.piece.key &&
  run.firmware === planned.firmware &&
  run.authorised === planned.authorised &&
  run.calibrated === planned.calibrated &&
  run.identityMoved === planned.identityMoved;
