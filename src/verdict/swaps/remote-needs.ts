import type { Assessment } from '#record/schema/assessment';
import type { RemoteNeeds } from '#schemes/eu-2023-1669/bases/pairing';
import type { SwapRun } from '#swaps/model/swap-run';
import { judgedParts } from './judged-parts.ts';
import { type JudgedPart, newestCell, whatDoesIt } from './what-does-it.ts';

/** Which remote actions does full function need, by part, as the swaps of a record settled it? Annex IV point 5. */
export const settledRemoteNeeds = (assessment: Assessment): ReadonlyMap<string, RemoteNeeds> =>
  new Map(
    judgedParts(assessment).flatMap((judged) => {
      const needs = remoteNeeds(assessment, judged);
      return needs ? [[judged.part, needs] as const] : [];
    }),
  );

/**
 * Which remote actions does full function need after the part was replaced, as its swaps settled it? Regulation (EU) 2023/1669,
 * Annex IV point 5: five steps for each remote notification or authorisation of serial numbers that full function needs.
 *
 * Nothing is needed where sound pieces are taken, or taken once a calibration without authorisation was run. Where pairing is
 * established and foreign pieces work with less than full function (E4 to E7; a notice or an entry alone is not counted as
 * less, reading ours), it is what the run with full function after it had done: the remote action it names and no other; none at
 * all where the step was done on the device alone. Left open: pairing without such a run, a run that names no action, a notice
 * alone, and whatever the diagnosis has not settled.
 */
export const remoteNeeds = (assessment: Assessment, judged: JudgedPart): RemoteNeeds | undefined => {
  const cause = whatDoesIt(judged);
  if (cause === 'none') return needs(assessment, { actions: [], runs: countedRuns(judged) });
  if (cause === 'calibration') {
    const runs = judged.runs.filter((run) => run.calibrated && isFull(run));
    return runs.length === 0 ? undefined : needs(assessment, { actions: [], runs: runs.map(({ id }) => id) });
  }
  return cause === 'pairing' ? pairedNeeds(assessment, judged) : undefined;
};

const LESS_THAN_FULL: readonly string[] = ['E4', 'E5', 'E6', 'E7'];

const isFull = ({ isOwn, outcome, attributed, together }: SwapRun): boolean =>
  !isOwn && outcome === 'passed' && (attributed || together.length === 0);

const countedRuns = (judged: JudgedPart): readonly string[] => newestCell(judged)?.runs ?? [];

type Remote = 'none' | 'notification' | 'authorisation';

const pairedNeeds = (assessment: Assessment, judged: JudgedPart): RemoteNeeds | undefined => {
  const authorised = judged.runs.filter((run) => !run.isOwn && run.authorised);
  const full = authorised.filter(isFull);
  const remoteOf = ({ id }: SwapRun): Remote | undefined => assessment.swaps?.[id]?.pairing?.remote;
  const alone = full.find((run) => remoteOf(run) === 'none');
  if (alone) return needs(assessment, { actions: [], runs: [alone.id] });
  if (!LESS_THAN_FULL.includes(newestCell(judged)?.worst ?? 'E0')) return undefined;
  // An earlier action on the same fit may have been needed as well: then what the later one needed besides is not told.
  const before = (run: SwapRun): boolean =>
    authorised.some(
      (other) =>
        other.order < run.order &&
        other.host === run.host &&
        other.piece.key === run.piece.key &&
        remoteOf(other) !== remoteOf(run),
    );
  const sure = full.find((run) => remoteOf(run) !== undefined && !before(run));
  const [action, id] = sure ? [remoteOf(sure), sure.id] : [];
  if (action === undefined || action === 'none' || id === undefined) return undefined;
  return needs(assessment, { actions: [action], runs: [id] });
};

const needs = (
  { swaps }: Assessment,
  { actions, runs }: { readonly actions: readonly Remote[]; readonly runs: readonly string[] },
): RemoteNeeds => ({
  remoteNotification: actions.includes('notification'),
  remoteAuthorisation: actions.includes('authorisation'),
  evidence: [...new Set(runs.flatMap((run) => [`swaps/${run}`, ...(swaps?.[run]?.evidence ?? [])]))],
});
