import { limits } from '#record/limits';
import type { Assessment } from '#record/schema/assessment';
import { diagnoseAll, type PartDiagnosis } from '#swaps/diagnosis/diagnose';
import type { Offered } from '#swaps/diagnosis/gaps';
import { firmwareInOrder } from '#swaps/lineage/firmware-in-order';
import { runsOf, type SwapRuns } from '#swaps/model/runs-of';
import type { SwapRun } from '#swaps/model/swap-run';
import { overLimit } from './over-limit.ts';

/** The runs of a record by part, what is known of each part after them, and the firmware versions, oldest first. */
export interface DiagnosedSwaps {
  readonly runs: ReadonlyMap<string, readonly SwapRun[]>;
  readonly diagnoses: ReadonlyMap<string, PartDiagnosis>;
  readonly firmware: readonly string[];
  /** What of the record's fits could not be used, or is missing, in words. */
  readonly problems: SwapRuns['problems'];
}

/**
 * What do the swaps of a record come to? Runs of all parts, told apart and diagnosed. Kept by the record's swaps, since a verdict
 * asks in several places: records that differ elsewhere share it. Throws kind `record` above the limits `partFits` and `swapFits`.
 */
export const diagnosedSwaps = (assessment: Assessment): DiagnosedSwaps => {
  const { swaps } = assessment;
  if (swaps === undefined) return NONE;
  const read = readBesides(assessment);
  const old = kept.get(swaps);
  if (old?.read.every((one, place) => one === read[place])) return old.found;
  const found = diagnosedAnew(assessment);
  kept.set(swaps, { read, found });
  return found;
};

/** What else of a record is read for its diagnoses. Of its parts only the order: they come in it. */
const readBesides = ({ specimens, swapBench, sessions, parts = {} }: Assessment): readonly unknown[] => [
  specimens,
  swapBench,
  sessions,
  JSON.stringify(Object.keys(parts)),
];

interface Kept {
  readonly read: readonly unknown[];
  readonly found: DiagnosedSwaps;
}

const kept = new WeakMap<NonNullable<Assessment['swaps']>, Kept>();

const NONE: DiagnosedSwaps = { runs: new Map(), diagnoses: new Map(), firmware: [], problems: [] };

const diagnosedAnew = (assessment: Assessment): DiagnosedSwaps => {
  const { runs, problems } = runsOf(assessment);
  refuseTooMany(runs);
  const listed = assessment.swapBench?.firmware ?? [];
  const seen = [...runs.values()].flat().flatMap(({ firmware }) => firmware ?? []);
  const firmware = firmwareInOrder([...listed, ...seen], listed);
  return { runs, diagnoses: diagnoseAll(runs, { firmware, offered: offeredAt(assessment) }), firmware, problems };
};

const refuseTooMany = (runs: SwapRuns['runs']): void => {
  const counts = [...runs].map(([part, fits]): readonly [string, number] => [part, fits.length]);
  const over = counts.find(([, count]) => count > limits.partFits);
  if (over) throw overLimit('partFits', `swaps, part ${over[0]}`, over[1]);
  const all = counts.reduce((sum, [, count]) => sum + count, 0);
  if (all > limits.swapFits) throw overLimit('swapFits', 'swaps', all);
};

/** Which steps can be taken at this bench, by part? */
const offeredAt = ({ swapBench }: Assessment): ReadonlyMap<string, Offered> =>
  new Map(
    Object.entries(swapBench?.parts ?? {}).map(([part, { authorisation, calibration }]) => [
      part,
      {
        ...(authorisation === undefined ? {} : { authorisation }),
        ...(calibration === undefined ? {} : { calibration }),
      },
    ]),
  );
