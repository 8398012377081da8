import type { Worth } from './prices.ts';

/** How far is a plan looked for, and what is it to reach? */
export interface PlanLimits {
  /** States that the exact search may meet before the plan is left to the policy. */
  readonly states: number;
  /** Runs that the exact search looks ahead. */
  readonly runs: number;
  /** Runs that the policy looks ahead for each part alone. */
  readonly ahead: number;
  /** Cases that the expected minutes of a policy are the mean of. */
  readonly cases: number;
  readonly seed: number;
  /** An undecided part counts as so many bench minutes. */
  readonly undecidedMinutes: number;
  /** Is a foreign piece to be tried in every host, and one of each class of donors, or is a decision from one direction enough? */
  readonly directions: 'both' | 'one';
  /** A part that so many runs have not decided is given up. */
  readonly mostRuns: number;
}

/** The limits where none are said: this tool's defaults. */
export const PLAN_LIMITS: PlanLimits = {
  states: 1500,
  runs: 8,
  ahead: 1,
  cases: 4,
  seed: 1,
  undecidedMinutes: 480,
  directions: 'both',
  mostRuns: 30,
};

/** What counts an undecided part, and each host or class of donors that was not tried: half of it. */
export const worthOf = ({ undecidedMinutes, directions }: PlanLimits): Worth => ({
  undecidedSeconds: undecidedMinutes * 60,
  untriedSeconds: directions === 'both' ? undecidedMinutes * 30 : 0,
});
