import type { Fact, RouteAction } from '#routes/problem/route-problem';
import { chancesAt, isInterval, type OddsEnd } from './chances.ts';
import { type Plan, type PlanRequest, planPolicy } from './plan.ts';
import type { Policy, PolicyNext } from './policy.ts';
import { relevantActions } from './relevant-actions.ts';

/** An order that the odds do not decide: the actions it is about, and every order that is best at some end of their odds. */
export interface UndecidedOrder {
  /** The fact that all of them give; undefined for the choice of what to try first of all. */
  readonly fact: Fact | undefined;
  readonly actions: readonly string[];
  readonly orders: readonly (readonly string[])[];
}

/** What do the intervals of the odds leave open? */
export interface OrderJudgement {
  /**
   * Expected time with losses where all odds are at their best and at their worst end, each with its own best policy [ms];
   * undefined where its search met the limit.
   */
  readonly bestMilliseconds: number | undefined;
  readonly worstMilliseconds: number | undefined;
  /** "Order not decidable": empty when every end tried has the same best orders as the means. */
  readonly undecided: readonly UndecidedOrder[];
  /** False when a search behind the judgement met the limit: then further orders may be undecided. */
  readonly isProved: boolean;
}

/**
 * Does the best order of ways hold all over the intervals of their odds? The ways of one fact are set against each other:
 * each in turn at its best end with the rest at the worst, then the reverse, everything else at the means; and all odds at
 * one end together. Orders that differ between such ends are not decidable; equal orders at all ends are no proof of what
 * lies between. Cost: two searches a contested way and two more, which share the limits of the request.
 */
export const judgeOrder = (request: Omit<PlanRequest, 'chances'>, atMean: Plan): OrderJudgement => {
  const { actions } = request.problem;
  if (!atMean.isProved) return NOT_JUDGED;
  if (!actions.some(isInterval))
    return { bestMilliseconds: atMean.value, worstMilliseconds: atMean.value, undecided: [], isProved: true };
  const ask = askWithin(request);
  const firsts = new Map<Plan, readonly string[]>([[atMean, firstUnsure(atMean.policy, actions)]]);
  const undecided: UndecidedOrder[] = [];
  for (const group of contestedFacts(relevantActions(actions, request.target))) {
    const plans = opposedEnds(group.actions).flatMap(
      (endOf) => ask((action) => chancesAt(action, endOf(action))) ?? [],
    );
    const orders = withoutPrefixes([atMean, ...plans].map(({ policy }) => triedOrder(policy, group.actions)));
    if (orders.length > 1) undecided.push({ fact: group.fact, actions: idsOf(group.actions), orders });
    for (const plan of plans) firsts.set(plan, firstUnsure(plan.policy, actions));
  }
  const [best, worst] = (['best', 'worst'] as const).map((end) => ask((action) => chancesAt(action, end)));
  for (const plan of [best, worst]) if (plan) firsts.set(plan, firstUnsure(plan.policy, actions));
  const orders = distinct([...firsts.values()]);
  if (orders.length > 1) undecided.push({ fact: undefined, actions: [...new Set(orders.flat())].sort(), orders });
  return { bestMilliseconds: best?.value, worstMilliseconds: worst?.value, undecided, isProved: ask.isComplete() };
};

const NOT_JUDGED: OrderJudgement = {
  bestMilliseconds: undefined,
  worstMilliseconds: undefined,
  undecided: [],
  isProved: false,
};

/** Asks for plans that share the limits of the request; undefined for those that do not fit into what is left. */
const askWithin = (request: Omit<PlanRequest, 'chances'>) => {
  const { limits } = request;
  const started = limits.now?.() ?? 0;
  let isComplete = true;
  let used = 0;
  const ask = (chances: PlanRequest['chances']): Plan | undefined => {
    const states = limits.states - used;
    const spent = (limits.now?.() ?? 0) - started;
    const time = limits.milliseconds === undefined ? {} : { milliseconds: limits.milliseconds - spent };
    const plan = planPolicy({ ...request, limits: { ...limits, states, ...time }, chances });
    used += plan.states;
    isComplete &&= plan.isProved;
    return plan.isProved ? plan : undefined;
  };
  return Object.assign(ask, { isComplete: () => isComplete });
};

const idsOf = (actions: readonly RouteAction[]): readonly string[] => actions.map((action) => action.id).sort();

interface ContestedFact {
  readonly fact: Fact;
  readonly actions: readonly RouteAction[];
}

/** Which facts on the way have more than one way, one of them with odds that are an interval? One entry a set of ways, by fact. */
const contestedFacts = ({ actions, facts }: ReturnType<typeof relevantActions>): readonly ContestedFact[] => {
  const groups = new Map<string, ContestedFact>();
  for (const fact of [...facts].sort()) {
    const givers = actions.filter((action) => action.gives.includes(fact));
    if (givers.length < 2 || !givers.some(isInterval)) continue;
    const key = JSON.stringify(idsOf(givers));
    if (!groups.has(key)) groups.set(key, { fact, actions: givers });
  }
  return [...groups.values()];
};

const opposedEnds = (ways: readonly RouteAction[]): readonly ((action: RouteAction) => OddsEnd)[] =>
  (ways.length === 2 ? ways.slice(0, 1) : ways).flatMap((way) => [
    (action: RouteAction) => (action === way ? 'best' : ways.includes(action) ? 'worst' : 'mean'),
    (action: RouteAction) => (action === way ? 'worst' : ways.includes(action) ? 'best' : 'mean'),
  ]);

const distinct = (orders: readonly (readonly string[])[]): readonly (readonly string[])[] => [
  ...new Map(orders.map((order) => [JSON.stringify(order), order])).values(),
];

/** Orders that say different things: one that only ends earlier, since its last way cannot fail there, says nothing else. */
const withoutPrefixes = (orders: readonly (readonly string[])[]): readonly (readonly string[])[] => {
  const all = distinct(orders);
  const isPrefix = (order: readonly string[], other: readonly string[]): boolean =>
    order.length > 0 && order.length < other.length && order.every((id, index) => id === other[index]);
  return all.filter((order) => !all.some((other) => isPrefix(order, other)));
};

/** In which order does a policy try these actions when each of them fails and all else succeeds? */
const triedOrder = (policy: Policy, ways: readonly RouteAction[]): readonly string[] => {
  const ids = new Set(ways.map((way) => way.id));
  const tried: string[] = [];
  let at: PolicyNext | undefined = policy.start;
  while (typeof at === 'number') {
    const node: Policy['nodes'][number] | undefined = policy.nodes[at];
    if (!node) break;
    const isWay = ids.has(node.action);
    if (isWay) tried.push(node.action);
    at = isWay ? node.onFailure : node.onSuccess;
  }
  return tried;
};

/** Which action with interval odds comes first when all goes well? */
const firstUnsure = (policy: Policy, actions: readonly RouteAction[]): readonly string[] => {
  const unsure = new Set(actions.filter(isInterval).map((action) => action.id));
  let at: PolicyNext | undefined = policy.start;
  while (typeof at === 'number') {
    const node: Policy['nodes'][number] | undefined = policy.nodes[at];
    if (!node) break;
    if (unsure.has(node.action)) return [node.action];
    at = node.onSuccess;
  }
  return [];
};
