import { EXPLANATION_WORDS } from '#swaps/model/explanation-words';
import { ownPieceKey } from '#swaps/model/piece-of';
import type { SwapRun } from '#swaps/model/swap-run';
import type { SwapPlan } from '#swaps/plan/plan-swaps';
import type { Prospect } from '#swaps/plan/prospects';
import type { SheetFit, SheetRun } from '#swaps/plan/sheet-run';
import { donorPiece, type SwapProblem } from '#swaps/plan/swap-problem';
import { MISSING_WORDS } from '#verdict/swaps/run-sheet-words';
import type { Arm, PieceChoice } from './run-draft.ts';
import { listed } from './swap-words.ts';

/** What is done with one part in a run that the plan suggests. */
export interface SuggestedFit {
  readonly part: string;
  readonly piece: PieceChoice;
  readonly arm: Arm;
  readonly calibrated: boolean;
  readonly identityMoved: boolean;
  /** The piece stays where it sits. */
  readonly stays: boolean;
  /** Matings left of its scarcest connector, before this run; missing where none is rated. */
  readonly matingsLeft?: number;
}

/** A run that the plan suggests: one start of one specimen. */
export interface SuggestedRun {
  readonly host: string;
  readonly firmware?: string;
  /** From the state of the bench after the last run to the end of this one [min]. */
  readonly minutes: number;
  readonly fits: readonly SuggestedFit[];
}

/** How does a run of the plan stand on the sheet? `runs` are those made so far, of all parts. */
export const suggestedRun = (
  sheet: SheetRun,
  { problem, runs }: { readonly problem: SwapProblem; readonly runs: readonly SwapRun[] },
): SuggestedRun => ({
  host: sheet.host,
  ...(sheet.firmware === undefined ? {} : { firmware: sheet.firmware }),
  minutes: sheet.seconds / 60,
  fits: sheet.fits.map((fit) => {
    const left = fit.handled ? matingsLeft(fit, sheet.host, { problem, runs }) : undefined;
    const { part, arm, calibrated, identityMoved } = fit;
    return {
      part,
      piece: choiceOf(fit, problem),
      arm,
      calibrated,
      identityMoved,
      stays: !fit.handled,
      ...(left === undefined ? {} : { matingsLeft: left }),
    };
  }),
});

/** A donor that the bench lists is chosen as such, the own part of another specimen or not: the list says more of it. */
const choiceOf = ({ isOwn, part, piece }: SheetFit, { donors, hosts }: SwapProblem): PieceChoice => {
  if (isOwn) return 'own';
  const home = hosts.find(({ id }) => ownPieceKey(id) === piece);
  if (home) return `specimen:${home.id}`;
  const donor = donors.find((one) => one.part === part && donorPiece(one).key === piece);
  return `donor:${donor?.id ?? piece}`;
};

const matingsLeft = (
  { part, piece }: SheetFit,
  host: string,
  { problem, runs }: { readonly problem: SwapProblem; readonly runs: readonly SwapRun[] },
): number | undefined => {
  const rated = problem.parts.find(({ id }) => id === part)?.matings;
  const made = runs.filter((run) => run.part === part && run.handled);
  const ends = [
    [rated?.[host], made.filter((run) => run.host === host).length],
    [rated?.[piece], made.filter((run) => run.piece.key === piece).length],
  ] as const;
  const left = ends.flatMap(([most, used]) => (most === undefined ? [] : [most - used]));
  return left.length === 0 ? undefined : Math.min(...left);
};

/** What the plan of the bench says beside the next run: how long all takes, what stays open, what more would help, what is assumed. */
export interface BenchPlan {
  /** Of all runs still to be made: how long they take on average, and whether that is the shortest. */
  readonly length: string;
  readonly undecided: readonly string[];
  readonly oneMore: readonly string[];
  readonly assumptions: readonly string[];
}

/** What a plan is put into words with: how parts are called, what is assumed. */
export interface PlanWords {
  readonly nameOf: (part: string) => string;
  readonly assumptions: readonly string[];
}

/** What does the plan say, in words? */
export const benchPlan = (plan: SwapPlan, { nameOf, assumptions }: PlanWords): BenchPlan => {
  const undecided = plan.prospects.filter((one) => one.standing.length > 1);
  const { oneMoreSpecimen, outOfTime } = plan;
  const late = outOfTime
    ? [`The minutes at hand end before ${listed(outOfTime.open.map(nameOf))} can be decided.`]
    : [];
  return {
    length: lengthWords(plan),
    undecided: [...late, ...byPart(undecided, nameOf).map(({ words }) => words)],
    oneMore: (oneMoreSpecimen?.decided ?? []).map(
      ({ part, truth }) => `${nameOf(part)}: decided too, were it ${nameOfTruth(truth)}.`,
    ),
    assumptions,
  };
};

const lengthWords = ({ lines, expected, bound }: SwapPlan): string => {
  if (lines.length === 0) return 'No run is left to make.';
  const proof = bound.isProvedBest
    ? 'No plan takes less on average: proved.'
    : `Not proved to be the shortest: with open parts counted, it comes to ${whole(bound.thisMinutes)} min, and no plan is below ${whole(bound.atLeastMinutes)} min.`;
  return `All runs still to be made: about ${whole(expected.minutes)} min. ${proof}`;
};

const whole = (minutes: number): number => Math.round(minutes);
const nameOfTruth = (truth: Prospect['truth']): string => EXPLANATION_WORDS[truth].name;

/** Truths of one part that end with the same ones standing are one line. */
const byPart = (open: readonly Prospect[], nameOf: (part: string) => string): readonly { readonly words: string }[] => {
  const lines = new Map<string, { words: string }>();
  for (const { part, standing, missing } of open) {
    const apart = listed(standing.map(nameOfTruth));
    const wanted = missing.length === 0 ? '' : ` It would take ${listed(missing.map((one) => MISSING_WORDS[one]))}.`;
    const words = `${nameOf(part)}: ${apart} cannot be told apart.${wanted}`;
    lines.set(words, { words });
  }
  return [...lines.values()];
};
