import type { Fact, RouteProblem } from '#routes/problem/route-problem';
import { type Branch, likeliestBranches } from './branches.ts';
import { chancesAt, chancesAtMean, isInterval } from './chances.ts';
import type { ExpectedTimeOptions } from './expected-time.ts';
import { DEFAULT_LIMITS, planPolicy } from './plan.ts';
import { type Policy, policyFigures, type WorkEnd } from './policy.ts';

/** The policy with the highest chance of no damage, and what it comes to. */
export interface LeastDamage {
  readonly target: Fact;
  readonly chanceOfDamage: number;
  /** No policy has a lower chance of damage; equal where proved. */
  readonly boundChance: number;
  readonly isProved: boolean;
  /** The lowest chance of damage with all odds at their best and at their worst end, each with its own best policy. */
  readonly bestChance: number;
  readonly worstChance: number;
  readonly chances: Readonly<Record<WorkEnd, number>>;
  /** Expected work without losses [ms]. */
  readonly workMilliseconds: number;
  readonly policy: Policy;
  readonly likeliest: Branch;
  readonly others: readonly Branch[];
  readonly states: number;
}

/**
 * How is a target reached with the highest chance of damaging nothing? The evaluator of the expected time with the chance of
 * damage as cost; among equal chances the least expected time with losses. Being stranded is no damage, but the work never
 * ends of its own will, so that no way is left out to be stranded safely. Errors and cost as of `expectedTime`.
 */
export const leastDamage = (problem: RouteProblem, target: Fact, options: ExpectedTimeOptions): LeastDamage => {
  const limits = options.limits ?? DEFAULT_LIMITS;
  const request = { problem, target, losses: options.losses, aim: 'least-damage', limits } as const;
  const plan = planPolicy({ ...request, chances: chancesAtMean });
  const hasEnds = problem.actions.some(isInterval);
  const best = hasEnds ? planPolicy({ ...request, chances: (action) => chancesAt(action, 'best') }) : plan;
  const worst = hasEnds ? planPolicy({ ...request, chances: (action) => chancesAt(action, 'worst') }) : plan;
  const [likeliest, ...others] = likeliestBranches(plan.policy, options.branches ?? 8);
  if (!likeliest) throw new RangeError('a policy has at least one course');
  return {
    target,
    chanceOfDamage: plan.value,
    boundChance: plan.isProved ? plan.value : plan.bound,
    isProved: plan.isProved && best.isProved && worst.isProved,
    bestChance: best.value,
    worstChance: worst.value,
    ...policyFigures(plan.policy),
    policy: plan.policy,
    likeliest,
    others,
    states: plan.states,
  };
};
