import type { Explanation } from '../model/explanation.ts';
import type { SwapRun } from '../model/swap-run.ts';
import type { Branch } from './belief.ts';
import { never } from './bench-setup.ts';
import { type BenchRun, type BenchState, benchAfter } from './bench-state.ts';
import { openParts } from './choose-run.ts';
import { type Expectation, expectedMinutes, type Followed, followPlan } from './follow-plan.ts';
import { type OneMoreSpecimen, oneMoreSpecimen } from './one-more-specimen.ts';
import { PLAN_LIMITS, type PlanLimits } from './plan-limits.ts';
import { Planner, PlanTables } from './planner.ts';
import { type PooledFits, pooledFits } from './pooled-fits.ts';
import { type Prospect, prospects } from './prospects.ts';
import { outlooksOf, whenSeen } from './run-branches.ts';
import { type SheetRun, sheetRun } from './sheet-run.ts';
import { stateAfter } from './start-state.ts';
import type { SwapProblem } from './swap-problem.ts';

/** What one part may show in a run other than the likeliest, and what is then known and run next. */
export interface Turn {
  readonly part: string;
  readonly outcome: Branch['outcome'];
  readonly chance: number;
  readonly standing: readonly Explanation[];
  /** Undefined when nothing is open any more. */
  readonly next?: SheetRun;
}

/** One line of the run sheet: the run, what is likeliest, and where it turns off. */
export interface SheetLine {
  readonly run: SheetRun;
  /** Bench minutes up to its end, if all goes as is likeliest. */
  readonly untilMinutes: number;
  readonly likeliest: readonly {
    readonly part: string;
    readonly outcome: Branch['outcome'];
    readonly chance: number;
  }[];
  readonly turns: readonly Turn[];
  readonly pooled?: PooledFits;
}

/** A plan of swaps: the run sheet of the likeliest branch, what it takes, how good it is, and what it cannot tell. */
export interface SwapPlan {
  readonly lines: readonly SheetLine[];
  readonly expected: Expectation;
  /**
   * No plan costs less than this on average [min], undecided parts counted with `undecidedMinutes` each; and what this one costs by the
   * same count. A plan is proved best where both are the same.
   */
  readonly bound: { readonly atLeastMinutes: number; readonly thisMinutes: number; readonly isProvedBest: boolean };
  /** For each part and each truth that can still be, what stands at the end; several where it cannot be decided, and what is missing. */
  readonly prospects: readonly Prospect[];
  /** Hosts in the order in which this branch is done with them: only then may they be used up. */
  readonly released: readonly { readonly host: string; readonly afterRun: number }[];
  /** Where the minutes run out: the last line that fits in, and the parts then still open. */
  readonly outOfTime?: { readonly lastRun: number; readonly open: readonly string[] };
  /** What one more specimen like the last would tell; undefined where nothing stays undecided. */
  readonly oneMoreSpecimen?: OneMoreSpecimen;
}

/** Less of a difference [s] between a plan and its bound counts as none. */
const PROVED_SECONDS = 0.5;

/** As much of a plan as is worked out by then: first the run sheet, then what it takes, then what it cannot tell, then the rest. */
export type PlanSoFar = Sheet & Partial<SwapPlan>;

/**
 * Which runs separate the explanations of these parts in the least bench time? Exact for a few parts, where an exact search finishes; else
 * by a policy, with a bound. `runs` are those made already, of all parts; `problem` is how the bench stood before them.
 */
export const planSwaps = (
  problem: SwapProblem,
  limits: Partial<PlanLimits> = {},
  runs: readonly SwapRun[] = [],
): SwapPlan => {
  const stages = planInStages(problem, limits, runs);
  for (;;) {
    const { done, value } = stages.next();
    if (done) return value;
  }
};

/** The same in stages, for whoever wants to read the run sheet before the rest is worked out; returns the whole. */
export function* planInStages(
  problem: SwapProblem,
  limits: Partial<PlanLimits> = {},
  runs: readonly SwapRun[] = [],
): Generator<PlanSoFar, SwapPlan> {
  const asked: Asked = { problem, limits: { ...PLAN_LIMITS, ...limits }, runs, tables: new PlanTables() };
  const { plan, open, mayStillBe } = yield* sheetAndLength(asked);
  const seen = prospects(open, asked.limits, asked.tables).filter(mayStillBe);
  yield { ...plan, prospects: seen };
  const more = oneMoreSpecimen(problem, asked.limits, { now: seen, runs });
  return { ...plan, prospects: seen, ...(more ? { oneMoreSpecimen: more } : {}) };
}

interface Asked {
  readonly problem: SwapProblem;
  readonly limits: PlanLimits;
  readonly runs: readonly SwapRun[];
  readonly tables: PlanTables;
}

type Sheet = Pick<SwapPlan, 'lines' | 'released' | 'outOfTime'>;
type Length = Pick<SwapPlan, 'expected' | 'bound'>;

/** The first stages, with what the others need of them: the planner and all it keeps are let go here. */
function* sheetAndLength({
  problem,
  limits,
  runs,
  tables,
}: Asked): Generator<
  PlanSoFar,
  { plan: Sheet & Length; open: SwapProblem; mayStillBe: (prospect: Prospect) => boolean }
> {
  let planner = new Planner(problem, limits, tables);
  const sheet = runSheet(planner, stateAfter(planner.setup, runs));
  yield sheet;
  planner = planner.lightened();
  const start = stateAfter(planner.setup, runs);
  const plan = { ...sheet, ...lengthOf(planner, { start, runs, ...sheet }) };
  yield plan;
  return { plan, open: ofOpenParts(planner, start), mayStillBe: questioned(planner, start) };
}

const runSheet = (planner: Planner, start: BenchState): Sheet => {
  const followed = followPlan(planner, start, (state, run) => likeliestAfter(planner, state, run).state);
  const lines = sheetLines(planner, followed);
  const outOfTime = timeUp(planner, { lines, followed, start });
  return { lines, released: releasedIn(followed, planner.setup.problem), ...(outOfTime ? { outOfTime } : {}) };
};

const lengthOf = (
  planner: Planner,
  { start, runs, lines }: { readonly start: BenchState; readonly runs: readonly SwapRun[] } & Pick<SwapPlan, 'lines'>,
): Length => {
  const best = planner.best(start);
  const expected = expectedMinutes(planner, runs);
  const atLeast = planner.bound(start);
  const open = expected.open * planner.limits.undecidedMinutes;
  const cost = best?.cost ?? (expected.minutes + open) * 60;
  return {
    expected,
    bound: {
      atLeastMinutes: atLeast / 60,
      thisMinutes: cost / 60,
      // Without a run to make there is nothing to draw: what is left to pay is then known, and not a mean.
      isProvedBest: (best !== undefined || lines.length === 0) && cost - atLeast < PROVED_SECONDS,
    },
  };
};

/** The problem with the parts alone that need more runs. */
const ofOpenParts = ({ setup, policy }: Planner, state: BenchState): SwapProblem => {
  const open = openParts(setup, state, policy).map((index) => (setup.parts[index] ?? never()).part.id);
  return { ...setup.problem, parts: setup.problem.parts.filter(({ id }) => open.includes(id)) };
};

/** Which truths are still in question, after the runs made already? Not one that the trouble of its part excludes. */
const questioned = ({ setup }: Planner, state: BenchState): ((prospect: Prospect) => boolean) => {
  const beliefs = new Map(setup.parts.map(({ part }, index) => [part.id, (state.parts[index] ?? never()).belief]));
  return ({ part, truth }) => {
    const { troubled, standing } = beliefs.get(part) ?? never();
    return !troubled || standing.includes(truth);
  };
};

/** What is likeliest in a run: every part shows what it does most probably, and nothing is hidden. */
const likeliestAfter = (
  planner: Planner,
  state: BenchState,
  run: BenchRun,
): { readonly state: BenchState; readonly shown: readonly Branch[] } => {
  const outlooks = outlooksOf(planner.setup, state, run);
  const shown = outlooks.map(({ branches }) => branches.reduce((best, one) => (one.chance > best.chance ? one : best)));
  return { state: whenSeen(benchAfter(planner.setup, state, run), run, { outlooks, shown }), shown };
};

const sheetLines = (planner: Planner, followed: readonly Followed[]): readonly SheetLine[] => {
  let seconds = 0;
  return followed.map(({ before, run }) => {
    const sheet = sheetRun(planner.setup, before, run);
    seconds += sheet.seconds;
    const pooled = pooledFits(planner.setup, before, run);
    const { shown } = likeliestAfter(planner, before, run);
    return {
      run: sheet,
      untilMinutes: seconds / 60,
      likeliest: sheet.fits.map(({ part }, index) => {
        const { outcome, chance } = shown[index] ?? never();
        return { part, outcome, chance };
      }),
      turns: turnsOf(planner, before, run),
      ...(pooled ? { pooled } : {}),
    };
  });
};

/** Chances below this are left off the run sheet; the next run is worked out when they come. */
const TURN_SHOWN = 0.05;

const turnsOf = (planner: Planner, before: BenchState, run: BenchRun): readonly Turn[] => {
  const { setup } = planner;
  const outlooks = outlooksOf(setup, before, run);
  const { shown } = likeliestAfter(planner, before, run);
  return outlooks.flatMap(({ part, branches }, index) =>
    branches
      .filter((branch) => branch !== shown[index] && branch.chance >= TURN_SHOWN)
      .map((branch): Turn => {
        const turned = shown.map((one, at) => (at === index ? branch : one));
        const state = whenSeen(benchAfter(setup, before, run), run, { outlooks, shown: turned });
        const next = planner.choose(state);
        return {
          part: (setup.parts[part] ?? never()).part.id,
          outcome: branch.outcome,
          chance: branch.chance,
          standing: branch.next.standing,
          ...(next ? { next: sheetRun(setup, state, next) } : {}),
        };
      }),
  );
};

/** After which run is a host not needed any more? In the order in which they may be used up. */
const releasedIn = (followed: readonly Followed[], { hosts }: SwapProblem): SwapPlan['released'] =>
  hosts.map(({ id }, host) => ({
    host: id,
    afterRun:
      followed.findLastIndex(({ run }) => run.host === host || run.choices.some((choice) => choice?.from === host)) + 1,
  }));

const timeUp = (
  { setup, policy }: Planner,
  { lines, followed, start }: { lines: readonly SheetLine[]; followed: readonly Followed[]; start: BenchState },
): SwapPlan['outOfTime'] => {
  const { minutes } = setup.problem;
  if (minutes === undefined || (lines.at(-1)?.untilMinutes ?? 0) <= minutes) return undefined;
  const lastRun = lines.filter(({ untilMinutes }) => untilMinutes <= minutes).length;
  const state = lastRun === 0 ? start : (followed[lastRun - 1]?.after ?? start);
  return { lastRun, open: openParts(setup, state, policy).map((part) => (setup.parts[part] ?? never()).part.id) };
};
