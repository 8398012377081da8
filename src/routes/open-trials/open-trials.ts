import type { Assessment } from '#record/schema/assessment';
import { routeSource } from '../problem/route-source.ts';
import type { CountingRules } from '../steps/counting-rules.ts';
import { candidates } from './candidates.ts';
import { Ground } from './ground.ts';
import { movesOf } from './moves.ts';
import type { OpenTrial } from './with-trial.ts';

/** Between which steps a priority part lies: shown by trials and sight, and the fewest that nothing excludes; undefined is no route. */
export interface OpenDepth {
  readonly part: string;
  readonly shown: number | undefined;
  readonly atLeast: number | undefined;
}

/** How far one trial, made by itself, could move one priority part. */
export interface TrialMove extends OpenDepth {
  /** Steps by what would be shown, had it come; the same as `shown` where that moves nothing. */
  readonly ifCame: number | undefined;
  /** The fewest steps not excluded, had it not come; the same as `atLeast` where that moves nothing. */
  readonly ifNot: number | undefined;
}

/** A trial not made yet, with what it could move; `moves` holds only the parts it moves. */
export interface WeighedTrial extends OpenTrial {
  readonly moves: readonly TrialMove[];
}

/** Trials weighed for one record at most. */
const MOST = 48;

/**
 * Which trials not made yet matter, worst first? Those on which a route rests that nobody has shown, to a priority part whose
 * depth is open. Each is settled by itself both ways: come, in the pessimistic problem, and not come, in the optimistic one.
 * First the trials on which it hangs whether a part is reached at all, by how many parts; then by the steps they could move,
 * all parts together; then as they are met, in the record's order of parts. What moves nothing by itself stands last.
 * Cost: at most four searches for each trial and open part, each bounded by a number of states.
 */
export const openTrials = (assessment: Assessment, rules: CountingRules): readonly WeighedTrial[] => {
  const ground = new Ground(routeSource(assessment), rules);
  const open = openDepths(ground);
  return candidates(ground, open)
    .slice(0, MOST)
    .map((trial, met) => {
      const moves = movesOf(trial, ground, open);
      return { trial: { ...trial, moves }, met, reached: reachedBy(moves), steps: stepsOf(moves) };
    })
    .sort((a, b) => b.reached - a.reached || b.steps - a.steps || a.met - b.met)
    .map(({ trial }) => trial);
};

const openDepths = (ground: Ground): readonly OpenDepth[] =>
  ground.pessimistic.priorityParts
    .map((part) => ({
      part,
      shown: ground.reach(ground.pessimistic, part)?.steps,
      atLeast: ground.reach(ground.optimistic, part)?.bound,
    }))
    .filter(({ shown, atLeast }) => atLeast !== undefined && (shown === undefined || atLeast < shown));

/** Of how many parts does it hang on the trial whether they are reached? */
const reachedBy = (moves: readonly TrialMove[]): number =>
  moves.filter(({ shown, ifCame, ifNot }) => (shown === undefined && ifCame !== undefined) || ifNot === undefined)
    .length;

const stepsOf = (moves: readonly TrialMove[]): number =>
  moves.reduce((sum, { shown, ifCame, atLeast, ifNot }) => sum + apart(shown, ifCame) + apart(atLeast, ifNot), 0);

const apart = (a: number | undefined, b: number | undefined): number =>
  a === undefined || b === undefined ? 0 : Math.abs(a - b);
