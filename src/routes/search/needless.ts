import { isApplicable, type PlanGraph } from '../structure/plan-graph.ts';

interface RouteCheck {
  readonly graph: PlanGraph;
  readonly given: Iterable<number>;
  readonly targets: readonly number[];
}

/** Can these actions, in some order, reach the targets? */
export const suffices = ({ graph, given, targets }: RouteCheck, actions: readonly number[]): boolean => {
  const facts = new Set(given);
  const left = new Set(actions);
  const holds = (fact: number): boolean => facts.has(fact);
  let changed = true;
  while (changed) {
    changed = false;
    for (const action of left) {
      if (!isApplicable(graph, action, holds)) continue;
      left.delete(action);
      for (const fact of graph.gives[action] ?? []) facts.add(fact);
      changed = true;
    }
  }
  return targets.every(holds);
};

/** Is this sequence possible as it stands, and does it reach the targets? */
const isValidOrder = ({ graph, given, targets }: RouteCheck, actions: readonly number[]): boolean => {
  const facts = new Set(given);
  const holds = (fact: number): boolean => facts.has(fact);
  for (const action of actions) {
    if (!isApplicable(graph, action, holds)) return false;
    for (const fact of graph.gives[action] ?? []) facts.add(fact);
  }
  return targets.every(holds);
};

/**
 * Which actions of a sequence are needed in its order? The sequence without what may be left out of it, the latest first; what
 * is left is still possible as it stands. Leaving out never raises a count of steps (docs/method/steps.md).
 */
export const withoutNeedless = (check: RouteCheck, actions: readonly number[]): readonly number[] => {
  let kept = actions;
  for (let at = actions.length - 1; at >= 0; at--) {
    const shorter = kept.filter((action) => action !== actions[at]);
    if (isValidOrder(check, shorter)) kept = shorter;
  }
  return kept;
};
