import type { Fact, RouteAction, RouteProblem } from '#routes/problem/route-problem';

interface State {
  readonly cost: number;
  readonly facts: ReadonlySet<Fact>;
  readonly held: readonly string[];
}

/**
 * The least time to a fact [ms], by trying everything in the order of its cost: every set of facts with every set of tools in
 * hand. Taking up a tool costs its pick-up unless it is in hand; bare hands put nothing down. Undefined where it can't be had.
 */
export const slowLeastTime = (problem: RouteProblem, target: Fact): number | undefined => {
  const open: State[] = [{ cost: 0, facts: new Set(), held: [] }];
  const seen = new Set<string>();
  while (open.length > 0) {
    open.sort((a, b) => b.cost - a.cost);
    const state = open.pop();
    if (!state) break;
    if (state.facts.has(target)) return state.cost;
    const key = `${[...state.facts].sort().join(' ')} | ${state.held.join(' ')}`;
    if (seen.has(key)) continue;
    seen.add(key);
    for (const action of problem.actions) if (mayFollow(action, state.facts)) open.push(after(action, state, problem));
  }
  return undefined;
};

const mayFollow = (action: RouteAction, facts: ReadonlySet<Fact>): boolean =>
  action.shown !== undefined &&
  action.leaves !== 'destroyed' &&
  action.gives.some((fact) => !facts.has(fact)) &&
  action.needs.every((fact) => facts.has(fact)) &&
  action.anyOf.every((clause) => clause.some((set) => set.every((fact) => facts.has(fact))));

const after = (action: RouteAction, { cost, facts, held }: State, problem: RouteProblem): State => {
  let [sum, hand] = [cost, held];
  for (const atom of action.atoms) {
    sum += atom.milliseconds ?? 0;
    if (atom.tools.length === 0) continue;
    for (const id of atom.tools)
      if (!hand.includes(id)) sum += problem.tools.find((tool) => tool.id === id)?.pickupMilliseconds ?? 0;
    hand = atom.tools;
  }
  return { cost: sum, facts: new Set([...facts, ...action.gives]), held: hand };
};
