import type { Fact, RouteAction, RouteProblem } from '../problem/route-problem.ts';
import type { CountingRules } from '../steps/counting-rules.ts';
import { routeTime } from '../steps/route-time.ts';
import { countSteps } from '../steps/step-counter.ts';
import { holdingAidsOf, type RoutePoints, stretchPoints, stretchStart } from '../steps/stretch.ts';

/** What does a route count, score and take? */
export interface RouteFigures {
  readonly steps: number;
  readonly points: { readonly fastener: number; readonly tool: number };
  /** Mean time, pick-ups included; actions without a duration count nothing [integer ms]. */
  readonly milliseconds: number;
  /** Index of the first action of the stretch that the points look at. */
  readonly stretchFrom: number;
  /** Actions with an atom of unknown duration, by id, each once, in route order. */
  readonly missingDurations: readonly string[];
}

/** By what is a route to be judged? */
export interface FigureOptions {
  readonly targets: readonly Fact[];
  readonly rules: CountingRules;
  readonly points: RoutePoints;
  readonly given?: readonly Fact[];
}

/** What does this sequence of actions count, score and take? The definition, straight from the counter; no search. */
export const routeFigures = (
  problem: RouteProblem,
  route: readonly RouteAction[],
  { targets, rules, points, given = [] }: FigureOptions,
): RouteFigures => {
  const atoms = route.flatMap((action) => action.atoms);
  const holdingAids = holdingAidsOf(problem);
  const stretchFrom = stretchStart(problem, route, { targets, given });
  return {
    steps: countSteps(atoms, rules, holdingAids).total,
    points: stretchPoints(route.slice(stretchFrom), points, { rules, holdingAids }),
    milliseconds: routeTime(problem, atoms).milliseconds,
    stretchFrom,
    missingDurations: route
      .filter((action) => action.atoms.some((atom) => atom.milliseconds === undefined))
      .map((action) => action.id),
  };
};
