import type { Fact, RouteAction } from '#routes/problem/route-problem';

/** Which facts can come about at all by these actions, chances left aside? A fixed point over all of them. */
const reachableFacts = (actions: readonly RouteAction[]): ReadonlySet<Fact> => {
  const facts = new Set<Fact>();
  let left = actions;
  for (;;) {
    const next = left.filter((action) => !isOpen(action, facts));
    for (const action of left) if (isOpen(action, facts)) for (const fact of action.gives) facts.add(fact);
    if (next.length === left.length) return facts;
    left = next;
  }
};

/** Do these facts let an action be taken? */
const isOpen = (action: RouteAction, facts: ReadonlySet<Fact>): boolean =>
  action.needs.every((fact) => facts.has(fact)) &&
  action.anyOf.every((clause) => clause.some((alternative) => alternative.every((fact) => facts.has(fact))));

/**
 * Which actions can take part in a way to the target, and which facts matter on it? Actions that can be reached and give a
 * fact the target or another such action needs. Both are empty when the target cannot be reached.
 */
export const relevantActions = (
  actions: readonly RouteAction[],
  target: Fact,
): { readonly actions: readonly RouteAction[]; readonly facts: ReadonlySet<Fact> } => {
  const reachable = reachableFacts(actions);
  const facts = new Set<Fact>();
  if (!reachable.has(target)) return { actions: [], facts };
  const possible = actions.filter((action) => isOpen(action, reachable));
  const chosen = new Set<RouteAction>();
  const queue: Fact[] = [target];
  for (let fact = queue.pop(); fact !== undefined; fact = queue.pop()) {
    if (facts.has(fact)) continue;
    facts.add(fact);
    for (const action of possible) {
      if (chosen.has(action) || !action.gives.includes(fact)) continue;
      chosen.add(action);
      queue.push(...action.needs, ...openAlternatives(action, reachable).flat(2));
    }
  }
  return { actions: possible.filter((action) => chosen.has(action)), facts };
};

/** Which alternatives of an action's clauses can come about? Clauses that always hold are left out. */
export const openAlternatives = (
  action: RouteAction,
  reachable: ReadonlySet<Fact>,
): readonly (readonly (readonly Fact[])[])[] =>
  action.anyOf
    .map((clause) => clause.filter((alternative) => alternative.every((fact) => reachable.has(fact))))
    .filter((clause) => clause.every((alternative) => alternative.length > 0));
