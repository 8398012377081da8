import type { Fact, RouteAction, RouteProblem } from '#routes/problem/route-problem';
import { actionWork } from './action-work.ts';
import { type Branch, likeliestBranches } from './branches.ts';
import { chancesAtMean } from './chances.ts';
import type { Losses } from './choices.ts';
import { judgeOrder, type OrderJudgement } from './judge-order.ts';
import { DEFAULT_LIMITS, planPolicy, type SearchLimits } from './plan.ts';
import { type Policy, policyFigures, type WorkEnd } from './policy.ts';

/** By which losses, limits and how many courses is the expected time worked out? */
export interface ExpectedTimeOptions {
  readonly losses: Losses;
  readonly limits?: SearchLimits;
  /** How many of the likeliest courses to list, the likeliest included (8). */
  readonly branches?: number;
  /** States that all searches behind the judgement of the order may enter together (2,000). */
  readonly orderStates?: number;
}

/** The optimal policy to a target at mean odds, and what it comes to. */
export interface ExpectedTime {
  readonly target: Fact;
  /** Expected time with losses [ms]: of the policy shown, an upper value unless proved. */
  readonly milliseconds: number;
  /** No policy does better [ms]; equal to `milliseconds` where proved. */
  readonly boundMilliseconds: number;
  /** False when a limit was met: then the two values above differ and the policy is the best found. */
  readonly isProved: boolean;
  /** Expected work without the losses [ms]. */
  readonly workMilliseconds: number;
  readonly chances: Readonly<Record<WorkEnd, number>>;
  readonly policy: Policy;
  readonly likeliest: Branch;
  /** The next likeliest courses, likeliest first; `unlistedChance` is what they and the likeliest leave out. */
  readonly others: readonly Branch[];
  readonly unlistedChance: number;
  /** What the odds' intervals leave open. */
  readonly order: OrderJudgement;
  /** Actions of the policy that have an atom without a duration: it counts 0, so that the time is a lower value. */
  readonly withoutTime: readonly string[];
  readonly states: number;
}

/**
 * How long does it take to reach a target, on average and under the best policy, when tries can fail or damage?
 *
 * The optimal policy of the acyclic stochastic shortest path over (facts, tools in hand, ways exhausted). A try takes its
 * time; then it succeeds (its facts hold), damages (the work ends with the stated loss) or fails (the way is exhausted: a
 * second try is never assumed to be like the first). Actions without odds succeed surely. With every way exhausted the work
 * is stranded and ends with the stated loss; it never ends of its own will. Throws a RangeError on chances above 1 or
 * unknown tools. Cost: exponential in the number of actions that can be taken in any order; past the limits an upper and a
 * lower value are given. See docs/method/expected-time.md.
 */
export const expectedTime = (problem: RouteProblem, target: Fact, options: ExpectedTimeOptions): ExpectedTime => {
  const limits = options.limits ?? DEFAULT_LIMITS;
  const request = { problem, target, losses: options.losses, aim: 'least-time', limits } as const;
  const plan = planPolicy({ ...request, chances: chancesAtMean });
  const [likeliest, ...others] = likeliestBranches(plan.policy, options.branches ?? 8);
  if (!likeliest) throw new RangeError('a policy has at least one course');
  const listed = others.reduce((sum, branch) => sum + branch.probability, likeliest.probability);
  return {
    target,
    milliseconds: plan.value,
    boundMilliseconds: plan.isProved ? plan.value : plan.bound,
    isProved: plan.isProved,
    ...policyFigures(plan.policy),
    policy: plan.policy,
    likeliest,
    others,
    unlistedChance: Math.max(0, 1 - listed),
    order: judgeOrder({ ...request, limits: { ...limits, states: options.orderStates ?? 2000 } }, plan),
    withoutTime: actionsWithoutTime(problem, plan.policy),
    states: plan.states,
  };
};

/** Which actions of a policy have an atom without a duration? Sorted ids. */
const actionsWithoutTime = (problem: RouteProblem, policy: Policy): readonly string[] => {
  const used = new Set(policy.nodes.map((node) => node.action));
  const tools = new Map(problem.tools.map((tool) => [tool.id, tool]));
  const isUntimed = (action: RouteAction): boolean => used.has(action.id) && !actionWork(action, tools).isTimed;
  return problem.actions
    .filter(isUntimed)
    .map((action) => action.id)
    .sort();
};
