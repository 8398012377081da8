import type { Fact, RouteAction, RouteProblem, WayOdds } from '#routes/problem/route-problem';
import type { TryOf, UncertainWork } from './uncertain-work.ts';

const exactly = (value: number): WayOdds['success'] => ({ low: value, mean: value, high: value });

const facts = (names: readonly string[]): readonly Fact[] => names.map((name) => name as Fact);

const actionOf = (one: TryOf): RouteAction => ({
  id: one.id,
  kind: 'release',
  subject: one.id,
  atoms: one.atoms.map((atom) => ({ do: 'pry', ...atom })),
  needs: facts(one.needs),
  anyOf: one.anyOf.map((clause) => clause.map(facts)),
  gives: facts(one.gives),
  ...(one.success === 1 && one.damage === 0
    ? {}
    : { odds: { success: exactly(one.success), damage: exactly(one.damage), tries: 0, source: 'generated' } }),
});

/** How does the planner see the referee's work? */
export const toRouteProblem = (work: UncertainWork): RouteProblem => ({
  reach: 'pessimistic',
  tools: Object.entries(work.pickups).map(([id, pickupMilliseconds]) => ({
    id,
    pickupMilliseconds,
    holdingAid: false,
  })),
  actions: work.tries.map(actionOf),
  priorityParts: [],
  unreachable: {},
});
