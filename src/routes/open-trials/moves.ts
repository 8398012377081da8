import { offBesides } from '#record/log/off-closure';
import { routeProblem } from '../problem/from-record.ts';
import type { RouteAction } from '../problem/route-problem.ts';
import { routeSource } from '../problem/route-source.ts';
import type { Ground } from './ground.ts';
import { offAt } from './leaps.ts';
import type { OpenDepth, TrialMove } from './open-trials.ts';
import { type OpenTrial, withTrial } from './with-trial.ts';

/** After a failure anything else may have to be off, a choice of a hundred and more at once: each state takes far longer then. */
const STATES_AFTER_FAILURE = 1000;

/**
 * Which of these parts would one trial move, made by itself, and how far? Had it come, by what would then be shown; had it not,
 * by the fewest steps that would then not be excluded. Searched only where it can move something: a part whose best route
 * gains nothing by reaching the thing freely is not moved by its coming, nor one whose route does not rest on it by its not.
 */
export const movesOf = (trial: OpenTrial, ground: Ground, open: readonly OpenDepth[]): readonly TrialMove[] => {
  const came = kept(() => routeProblem(routeSource(withTrial(ground.source, trial, 'yes')), 'pessimistic'));
  const not = kept(() => routeProblem(routeSource(withTrial(ground.source, trial, 'no')), 'optimistic'));
  const excluded = new Set([...trial.off, ...offBesides(trial.off, ground.source.device)]);
  return open
    .map((depth): TrialMove => {
      const { part, shown, atLeast } = depth;
      const gains = mayGain(trial.subject, ground, depth);
      const rests = restsOn(trial.subject, excluded, ground.reach(ground.optimistic, part)?.actions ?? []);
      return {
        ...depth,
        ifCame: gains ? fewer(shown, ground.reach(came(), part)?.steps) : shown,
        ifNot: rests ? more(atLeast, ground.reach(not(), part, STATES_AFTER_FAILURE)?.bound) : atLeast,
      };
    })
    .filter(({ shown, atLeast, ifCame, ifNot }) => ifCame !== shown || ifNot !== atLeast);
};

const kept = <T>(make: () => T): (() => T) => {
  let made: T | undefined;
  return () => {
    made ??= make();
    return made;
  };
};

const mayGain = (subject: string, ground: Ground, { part, shown }: OpenDepth): boolean => {
  const free = ground.reach(ground.freely(subject), part);
  return free !== undefined && (shown === undefined || free.bound < shown);
};

/** Does a route work on the thing with no more off than this? */
const restsOn = (subject: string, excluded: ReadonlySet<string>, actions: readonly RouteAction[]): boolean =>
  actions.some((action, index) => action.subject === subject && offAt(actions, index).every((id) => excluded.has(id)));

/** A success never lengthens what is shown, whatever a search with a limit says. */
const fewer = (shown: number | undefined, then: number | undefined): number | undefined =>
  shown === undefined || then === undefined ? (then ?? shown) : Math.min(shown, then);

/** A failure never shortens what is not excluded; it may leave no route at all. */
const more = (atLeast: number | undefined, then: number | undefined): number | undefined =>
  atLeast === undefined || then === undefined ? then : Math.max(atLeast, then);
