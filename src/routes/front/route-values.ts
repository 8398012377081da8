import type { Fact, RouteAction, RouteProblem } from '../problem/route-problem.ts';
import type { BestFoundOptions } from '../search/best-found.ts';
import { lowerBounds } from '../search/lower-bounds.ts';
import { localAchievers } from '../search/minimal-route.ts';
import { withoutNeedless } from '../search/needless.ts';
import { routeFigures } from '../search/route-figures.ts';
import { handTable, levelTable, type SearchContext, searchContext } from '../search/search-context.ts';
import { cutTarget, type TargetProblem } from '../search/target-problem.ts';
import { logDamage, routeDamage } from './damage-chance.ts';
import { type Costs, LabelSearch } from './label-search.ts';

/** What a route is expected to take and to damage, by whoever knows failures and fallbacks. */
export interface Evaluation {
  readonly expectedMilliseconds: number;
  /** Chance that something is damaged, 0 to 1. */
  readonly damage: number;
}

/** What does the front need to be told? */
export interface FrontOptions extends BestFoundOptions {
  /** Values a route anew; without it a route takes its mean time and damages as its actions' mean odds say. */
  readonly evaluate?: (route: readonly RouteAction[]) => Evaluation;
  /** Labels entered at most. */
  readonly mostLabels?: number;
}

/** One route of the front. */
export interface FrontRoute extends Evaluation {
  readonly steps: number;
  readonly route: readonly string[];
  readonly actions: readonly RouteAction[];
}

/** Labels entered at most where the caller names no limit: well under a second's work. */
const DEFAULT_LABELS = 20_000;

/** Which values has a route: its steps, and time and damage as `evaluate` has them, or plainly? */
export const valuedRoute = (
  problem: RouteProblem,
  route: readonly RouteAction[],
  options: FrontOptions & { readonly targets: readonly Fact[] },
): FrontRoute => {
  const { steps, milliseconds } = routeFigures(problem, route, options);
  const plain = { expectedMilliseconds: milliseconds, damage: routeDamage(route) };
  return { steps, ...(options.evaluate?.(route) ?? plain), route: route.map((action) => action.id), actions: route };
};

/** What has this route cost, in the numbers that a label search adds up? */
export const costsOf = (route: readonly RouteAction[], steps: number, milliseconds: number): Costs => [
  steps,
  milliseconds,
  route.reduce((sum, action) => sum + logDamage(action), 0),
];

/** Least costs still to come from any state: the picked mandatory facts not yet true, and tools not yet in the hands. */
const remainingCosts = (
  context: SearchContext,
  target: TargetProblem,
  options: FrontOptions,
): ((state: Int32Array, hands: number) => Costs) => {
  const { graph, landmarks } = context;
  const hands = handTable(graph, { rules: options.rules, keepsTime: true, actions: target.actions });
  const achievers = localAchievers(target);
  const bounds = lowerBounds(target, levelTable(graph, options.points, options.rules), { hands, landmarks, achievers });
  const damage = target.facts.map((fact) =>
    Math.min(...achievers(fact).map((a) => logDamage(graph.actions[a] as RouteAction))),
  );
  return (state, at) => {
    let [steps, milliseconds, risk, tools] = [0, 0, 0, 0];
    for (let entry = 0; entry < bounds.size; entry++) {
      const word = bounds.word[entry] ?? 0;
      const bit = bounds.bit[entry] ?? 0;
      if ((state[word] ?? 0) & bit) continue;
      steps += bounds.steps[entry] ?? 0;
      milliseconds += bounds.milliseconds[entry] ?? 0;
      tools |= bounds.tools[entry] ?? 0;
      risk += damage[word * 32 + 31 - Math.clz32(bit)] ?? 0;
    }
    const pickups = hands.pickupCost(tools & ~(hands.held[at] ?? 0));
    return [Math.max(0, steps - (hands.saved[at] ?? 0)), milliseconds + pickups, risk];
  };
};

/** Which routes does a label search for some objectives find? Without needless actions; `exact` where it ran to its end. */
export const searchRoutes = (
  problem: RouteProblem,
  targets: readonly Fact[],
  options: FrontOptions & {
    readonly known: readonly Costs[];
    readonly objectives: readonly (0 | 1 | 2)[];
    readonly firstOnly?: boolean;
  },
): { readonly routes: readonly RouteAction[][]; readonly exact: boolean; readonly labels: number } => {
  const context = searchContext(problem, options);
  const { graph, given } = context;
  const target = cutTarget(graph, { ...context, targets });
  if (!target) return { routes: [], exact: true, labels: 0 };
  const search = new LabelSearch({
    target,
    hands: handTable(graph, { rules: options.rules, keepsTime: true, actions: target.actions }),
    damage: graph.actions.map(logDamage),
    known: options.known,
    remaining: remainingCosts(context, target, options),
    mostLabels: options.mostLabels ?? DEFAULT_LABELS,
    objectives: options.objectives,
    firstOnly: options.firstOnly ?? false,
  });
  const exact = search.run();
  const check = { graph, given, targets: target.targets };
  const routes = search.found.map((label) => {
    const actions = search.path(label).map((action) => target.actions[action] ?? 0);
    return withoutNeedless(check, actions).flatMap((action) => graph.actions[action] ?? []);
  });
  return { routes, exact, labels: search.labels };
};
