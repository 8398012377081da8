import { isApplicable, type PlanGraph } from './plan-graph.ts';

/**
 * Which facts can be reached with the usable actions, from what holds already? A byte a fact. Facts never become false, so
 * this is no relaxation: what is reached here can be done in one sequence, the order in which actions are first applied.
 */
export const reachable = (
  graph: PlanGraph,
  usable: Uint8Array,
  given: Iterable<number>,
): { readonly facts: Uint8Array; readonly order: readonly number[] } => {
  const facts = new Uint8Array(graph.facts.length);
  for (const fact of given) facts[fact] = 1;
  const done = new Uint8Array(graph.actions.length);
  const order: number[] = [];
  const holds = (fact: number): boolean => facts[fact] === 1;
  let changed = true;
  while (changed) {
    changed = false;
    for (let action = 0; action < graph.actions.length; action++) {
      if (done[action] || !usable[action] || !isApplicable(graph, action, holds)) continue;
      done[action] = 1;
      order.push(action);
      for (const fact of graph.gives[action] ?? []) facts[fact] = 1;
      changed = true;
    }
  }
  return { facts, order };
};
