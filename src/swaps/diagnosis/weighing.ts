import type { Outcome, SwapRun } from '../model/swap-run.ts';
import { type Allowed, agrees, isSurePass } from '../signature/allowed.ts';
import { placeRuns } from '../signature/placed-run.ts';
import { predictRun } from '../signature/predict.ts';
import { type Suspicions, suspicionsOf } from '../signature/suspicions-of.ts';
import { smallestHittingSet } from './hitting-set.ts';

/** What is known of one run of one part: what it showed of the part, and the ids of the runs that this rests on. */
export interface Finding {
  readonly outcome: Outcome;
  readonly basis: readonly string[];
}

/** A part's runs in their order, everything that can be meant of it, and what each suspicion allows in each run. */
export interface Weighing {
  readonly runs: readonly SwapRun[];
  readonly all: Suspicions;
  /** By suspicion, then by run. */
  readonly allowed: readonly (readonly Allowed[])[];
}

/** What can be meant of a part, and what would each run show then? `firmware` lists the versions at hand, oldest first. */
export const weigh = (unordered: readonly SwapRun[], firmware: readonly string[]): Weighing => {
  const runs = [...unordered].sort((a, b) => a.order - b.order);
  const all = suspicionsOf(runs, firmware);
  const placed = placeRuns(runs);
  const allowed = all.suspicions.map((suspicion) => placed.map((run) => predictRun(suspicion, run, firmware)));
  return { runs, all, allowed };
};

/** A weighing with what is known of each run (in the order of the runs), and the runs that contradict each suspicion. */
export interface Weighed extends Weighing {
  readonly findings: readonly Finding[];
  /** Places in the order of runs, by suspicion; none where it stands. */
  readonly conflicts: readonly (readonly number[])[];
}

/** Which runs contradict each suspicion, given what is known of each run? */
export const weighedWith = (weighing: Weighing, findings: readonly Finding[]): Weighed => {
  const conflicts = weighing.allowed.map((row) =>
    row.flatMap((cell, place) => (agrees(cell, findings[place]?.outcome ?? 'unseen') ? [] : [place])),
  );
  return { ...weighing, findings, conflicts };
};

/** Does anything agree with every run? */
export const hasStanding = ({ conflicts }: Weighed): boolean => conflicts.some((places) => places.length === 0);

/**
 * Which few runs exclude all of some suspicions (places in the list)? Ids in the order of the runs, with what their own attribution
 * rests on. Undefined where one of the suspicions stands.
 */
export const excludedBy = (
  { conflicts, findings }: Weighed,
  which: readonly number[],
): readonly string[] | undefined => {
  const places = smallestHittingSet(which.map((index) => conflicts[index] ?? []));
  return places && [...new Set(places.flatMap((place) => findings[place]?.basis ?? []))];
};

/**
 * Which suspicions allow that a part did something in a run? Places in the list. That the run was misread is no doing of the part: of
 * a run with several parts it is weighed with the part that is left.
 */
export const troubledIn = ({ allowed, all }: Weighing, place: number): readonly number[] =>
  allowed.flatMap((row, index) => {
    const isMisread = all.suspicions[index]?.explanation === 'test-error';
    return isMisread || isSurePass(row[place] ?? []) ? [] : [index];
  });
