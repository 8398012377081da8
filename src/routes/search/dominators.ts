import type { Fact, RouteAction, RouteProblem } from '../problem/route-problem.ts';
import { partOfFact } from '../steps/stretch.ts';
import { hasNode } from '../structure/landmarks.ts';
import { type StepSearchOptions, searchContext } from './search-context.ts';

/** What stands on every route to a target. */
export interface Dominators {
  /** Facts that every route makes true, the target with them, sorted. */
  readonly facts: readonly Fact[];
  /** Actions that every route takes, by id, sorted. */
  readonly actions: readonly string[];
}

/**
 * Which facts and actions are on every route to the target? Undefined where there is no route. Exact: without any one of them
 * the target could not be reached. Only actions that the options admit are looked at.
 */
export const dominators = (
  problem: RouteProblem,
  target: Fact,
  options: Omit<StepSearchOptions, 'rules'>,
): Dominators | undefined => {
  const { graph, landmarks } = searchContext(problem, options);
  const label = landmarks.ofFact(graph.factIds.get(target) ?? -1);
  if (!label) return undefined;
  const base = graph.facts.length;
  return {
    facts: graph.facts.filter((_, fact) => hasNode(label, fact)).sort(),
    actions: graph.actions.flatMap((action, index) => (hasNode(label, base + index) ? [action.id] : [])).sort(),
  };
};

/** Which parts come off on a route only to give access? In route order, without the targets' own parts. */
export const blockingParts = (route: readonly RouteAction[], targets: readonly Fact[]): readonly string[] => {
  const own = new Set(targets.map(partOfFact));
  const parts = route.flatMap((action) => action.atoms.flatMap((atom) => atom.removes?.part ?? []));
  return [...new Set(parts)].filter((part) => !own.has(part));
};
