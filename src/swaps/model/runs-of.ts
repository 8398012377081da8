import type { Assessment, Swap } from '#record/schema/assessment';
import { type NamedSwap, standingSwaps } from '#record/standing-swaps';
import { withHistoryEntries } from './history-entry.ts';
import { ownRevision, type PieceContext, pieceOf } from './piece-of.ts';
import { firmwareOf, isReady, outcomeOf, treatmentOf } from './run-setting.ts';
import type { SwapRun } from './swap-run.ts';

/** What of a fit is not recorded or cannot be used, in words. */
export interface FitProblem {
  /** Where it stands: `swaps/r12-battery`. */
  readonly address: string;
  readonly what: string;
}

/** The runs of a record by part, and what is missing in it. */
export interface SwapRuns {
  readonly runs: ReadonlyMap<string, readonly SwapRun[]>;
  readonly problems: readonly FitProblem[];
}

/**
 * Which swap runs does a record hold? By part (in the order of the record's parts), in the order of their run numbers. Corrections and
 * withdrawn fits are honoured. A fit without a run number, or a second one of the same part in the same run, cannot be placed and is
 * left out; one without an effect, broken off, of an unknown piece, or hidden by another part that kept the host from running (E6)
 * stays as unseen: what it left behind counts, what it showed does not. Every such fit is named in the problems.
 */
export const runsOf = (assessment: Assessment): SwapRuns => {
  const standing = standingSwaps(assessment.swaps);
  const problems: FitProblem[] = [];
  const placed = placedFits(standing, problems);
  const context: RunContext = { assessment, standing, placed, problems };
  const runs = new Map<string, SwapRun[]>();
  for (const part of partsInOrder(assessment, placed)) runs.set(part, runsOfPart(part, context));
  return { runs, problems };
};

interface RunContext extends PieceContext {
  /** Fits with a place in the order of runs, in that order. */
  readonly placed: readonly PlacedFit[];
  readonly problems: FitProblem[];
}

type PlacedSwap = Swap & { readonly run: number };
type PlacedFit = readonly [id: string, swap: PlacedSwap];

const partsInOrder = ({ parts = {} }: Assessment, placed: readonly PlacedFit[]): readonly string[] => {
  const swapped = new Set(placed.map(([, { part }]) => part));
  return [...new Set([...Object.keys(parts), ...swapped])].filter((part) => swapped.has(part));
};

const placedFits = (standing: readonly NamedSwap[], problems: FitProblem[]): readonly PlacedFit[] => {
  const counts = new Map<string, number>();
  for (const [, swap] of standing) counts.set(placeKey(swap), (counts.get(placeKey(swap)) ?? 0) + 1);
  const placed = standing.flatMap(([id, swap]): PlacedFit[] => {
    const isTwice = swap.run !== undefined && (counts.get(placeKey(swap)) ?? 0) > 1;
    if (swap.run !== undefined && !isTwice) return [[id, { ...swap, run: swap.run }]];
    problems.push(fitProblem(id, isTwice ? TWICE : UNPLACED));
    return [];
  });
  return placed.sort(([a, one], [b, other]) => one.run - other.run || compareText(a, b));
};

const TWICE =
  'the same part is fitted twice in one run of one specimen: give each its own run number, or correct one by the other';
const UNPLACED = 'no run number: its place in the order of runs is not known';

const placeKey = ({ run, specimen, part }: Swap): string => JSON.stringify([run, specimen, part]);
const compareText = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);
const fitProblem = (id: string, what: string): FitProblem => ({ address: `swaps/${id}`, what });

const runsOfPart = (part: string, context: RunContext): SwapRun[] => {
  const runs: SwapRun[] = [];
  for (const [id, swap] of context.placed) {
    if (swap.part !== part) continue;
    const before = runs.findLast(({ host }) => host === swap.specimen);
    runs.push(runOf(id, swap, { ...context, before }));
  }
  return withHistoryEntries(runs);
};

interface FitContext extends RunContext {
  readonly before: SwapRun | undefined;
}

const runOf = (id: string, swap: PlacedSwap, context: FitContext): SwapRun => {
  const { piece, isOwn, problem } = pieceOf(id, swap, context);
  const beside = context.placed.filter(([other, fit]) => other !== id && isSameStart(fit, swap));
  const unseen = problem === undefined ? unseenBecause(swap, beside) : `not recorded ${problem}`;
  if (unseen !== undefined) context.problems.push(fitProblem(id, `${unseen}: nothing is concluded from it`));
  const hostRevision = ownRevision(swap.specimen, swap.part, context);
  const [firmware, ready] = [firmwareOf(swap, context.assessment), isReady(swap)];
  return {
    id,
    order: swap.run,
    host: swap.specimen,
    part: swap.part,
    piece,
    isOwn,
    ...treatmentOf(swap, piece.key, context.before),
    ...(hostRevision === undefined ? {} : { hostRevision }),
    ...(firmware === undefined ? {} : { firmware }),
    ...(ready === undefined ? {} : { ready }),
    ...(swap.settled === undefined ? {} : { settled: swap.settled }),
    ...(swap.arm === undefined ? {} : { arm: swap.arm }),
    ...(swap.effect === undefined ? {} : { effect: swap.effect }),
    outcome: unseen === undefined ? outcomeOf(swap) : 'unseen',
    together: beside.map(([, { part }]) => part),
    foreignBeside: beside.filter(([other, fit]) => !pieceOf(other, fit, context).isOwn).map(([, { part }]) => part),
    attributed: swap.effectOf !== 'run' || beside.length === 0,
    evidence: swap.evidence ?? [],
  };
};

const isSameStart = (a: PlacedSwap, b: PlacedSwap): boolean => a.run === b.run && a.specimen === b.specimen;

/** Why does a fit show nothing of its part? Undefined where it does. */
const unseenBecause = (swap: Swap, beside: readonly PlacedFit[]): string | undefined => {
  if (swap.effect === undefined)
    return swap.interrupted === true ? 'broken off before an effect was seen' : 'no effect recorded';
  if (swap.masked === true) return 'hidden by another part of the run';
  if (swap.effect !== 'E0') return undefined;
  if (swap.interrupted === true) return 'broken off before the list was through';
  const isHidden = beside.some(([, other]) => other.effect === 'E6' && other.effectOf !== 'run');
  return isHidden ? 'hidden by another part of the run that kept the host from running (E6)' : undefined;
};
