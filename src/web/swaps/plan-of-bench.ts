import { listed } from '#quantity/counts';
import type { Assessment } from '#record/schema/assessment';
import { EXPLANATION_WORDS } from '#swaps/model/explanation-words';
import { ownPieceKey } from '#swaps/model/piece-of';
import type { SwapRun } from '#swaps/model/swap-run';
import type { PlanSoFar, SwapPlan } from '#swaps/plan/plan-swaps';
import type { Prospect } from '#swaps/plan/prospects';
import type { SheetFit, SheetRun } from '#swaps/plan/sheet-run';
import { donorPiece, type SwapProblem } from '#swaps/plan/swap-problem';
import { MISSING_WORDS, runSheetWords } from '#verdict/swaps/run-sheet-words';
import { partName } from './recorded-runs.ts';
import type { Arm, PieceChoice } from './run-draft.ts';

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

/** What the plan of the bench says beside the next run; what is missing is not worked out yet. */
export interface BenchPlan {
  /** The runs ahead, were each to show what is likeliest, and after which of them a specimen may be used up. */
  readonly runs: readonly PlannedRun[];
  /** Of all runs still to be made: how long they take on average, and whether that is the shortest. */
  readonly length?: string;
  readonly undecided?: readonly string[];
  readonly oneMore?: readonly string[];
  readonly assumptions: readonly string[];
}

/** A run ahead, in words. */
export interface PlannedRun {
  readonly head: string;
  readonly fits: readonly string[];
  /** Bench minutes from now to its end. */
  readonly untilMinutes: number;
  /** Specimens that nothing needs any more after it. */
  readonly released: readonly string[];
}

/** What a plan is put into words with: the record, what is assumed, and whether all is worked out. */
export interface PlanWords {
  readonly isWhole: boolean;
  readonly document: Assessment;
  readonly assumptions: readonly string[];
}

/** What does the plan say, in words, as far as it is worked out? */
export const benchPlan = (plan: PlanSoFar, { document, assumptions, isWhole }: PlanWords): BenchPlan => {
  const nameOf = (part: string): string => partName(document, part);
  const { expected, bound, prospects } = plan;
  return {
    runs: plannedRuns(document, plan),
    ...(expected && bound ? { length: lengthWords(plan, expected, bound) } : {}),
    ...(prospects ? { undecided: [...lateWords(plan, nameOf), ...undecidedWords(prospects, nameOf)] } : {}),
    ...(isWhole ? { oneMore: oneMoreWords(plan, nameOf) } : {}),
    assumptions,
  };
};

const plannedRuns = (document: Assessment, { lines, released }: PlanSoFar): readonly PlannedRun[] =>
  lines.map(({ run, untilMinutes }, index) => ({
    ...runSheetWords(document, run),
    untilMinutes,
    released: released
      .filter(({ afterRun }) => afterRun === index + 1)
      .map(({ host }) => document.specimens?.[host]?.name ?? host),
  }));

const lateWords = ({ outOfTime }: PlanSoFar, nameOf: (part: string) => string): readonly string[] =>
  outOfTime ? [`The minutes at hand end before ${listed(outOfTime.open.map(nameOf))} can be decided.`] : [];

const oneMoreWords = ({ oneMoreSpecimen }: PlanSoFar, nameOf: (part: string) => string): readonly string[] => {
  const { decided = [], takes } = oneMoreSpecimen ?? {};
  return [
    ...decided.map(({ part, truth }) => `${nameOf(part)}: decided too, were it ${nameOfTruth(truth)}.`),
    ...(takes ? [`In about ${whole(takes.minutes)} bench minutes for these parts, from here on.`] : []),
  ];
};

const lengthWords = ({ lines }: PlanSoFar, expected: SwapPlan['expected'], bound: SwapPlan['bound']): string => {
  if (lines.length === 0) return 'No run is left to make.';
  const proof = bound.isProvedBest
    ? 'No plan takes less on average: proved.'
    : `Not proved to be the shortest: with open parts counted, it comes to ${whole(bound.thisMinutes)} min, and no plan is below ${whole(bound.atLeastMinutes)} min.`;
  return `All runs still to be made: about ${whole(expected.minutes)} min. ${proof}`;
};

const whole = (minutes: number): number => Math.round(minutes);
const nameOfTruth = (truth: Prospect['truth']): string => EXPLANATION_WORDS[truth].name;

/** Truths of one part that end with the same ones standing are one line. */
const undecidedWords = (seen: readonly Prospect[], nameOf: (part: string) => string): readonly string[] => {
  const open = seen.filter(({ standing }) => standing.length > 1);
  const lines = open.map(({ part, standing, missing }) => {
    const apart = listed(standing.map(nameOfTruth));
    const wanted = missing.length === 0 ? '' : ` It would take ${listed(missing.map((one) => MISSING_WORDS[one]))}.`;
    return `${nameOf(part)}: ${apart} cannot be told apart.${wanted}`;
  });
  return [...new Set(lines)];
};
