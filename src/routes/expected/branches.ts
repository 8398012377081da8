import type { Policy, PolicyNext, WorkEnd } from './policy.ts';

/** One try on a branch and what came of it. */
export interface BranchTry {
  readonly action: string;
  readonly came: 'success' | 'failure' | 'damage';
  readonly milliseconds: number;
}

/** One course that the work may take under a policy. */
export interface Branch {
  readonly tries: readonly BranchTry[];
  readonly ends: WorkEnd;
  readonly probability: number;
  /** Work on this course, without losses [ms]. */
  readonly milliseconds: number;
}

interface Partial {
  readonly at: PolicyNext | 'damaged';
  readonly probability: number;
  readonly tries: readonly BranchTry[];
}

/**
 * Which are the likeliest courses of a policy, likeliest first? At most `count`; on equal chances the one that ends or
 * succeeds earlier in the search. Grown from the likeliest unfinished course, so that no course is passed over.
 */
export const likeliestBranches = (policy: Policy, count: number): readonly Branch[] => {
  const open: Partial[] = [{ at: policy.start, probability: 1, tries: [] }];
  const found: Branch[] = [];
  while (found.length < count) {
    const next = takeLikeliest(open);
    if (!next) break;
    if (typeof next.at === 'number') open.push(...stepsFrom(policy, next.at, next));
    else found.push(branchOf(next.at, next));
  }
  return found;
};

const takeLikeliest = (open: Partial[]): Partial | undefined => {
  let at = 0;
  for (let index = 1; index < open.length; index++)
    if ((open[index]?.probability ?? 0) > (open[at]?.probability ?? 0)) at = index;
  return open.splice(at, 1)[0];
};

const stepsFrom = (policy: Policy, index: number, from: Partial): readonly Partial[] => {
  const node = policy.nodes[index];
  if (!node) throw new RangeError(`the policy has no node ${index}`);
  const { action, milliseconds } = node;
  const step = (came: BranchTry['came'], chance: number, at: Partial['at']): Partial => ({
    at,
    probability: from.probability * chance,
    tries: [...from.tries, { action, came, milliseconds }],
  });
  const steps = [step('success', node.success, node.onSuccess)];
  if (node.onFailure !== undefined) steps.push(step('failure', 1 - node.success - node.damage, node.onFailure));
  if (node.damage > 0) steps.push(step('damage', node.damage, 'damaged'));
  return steps;
};

const branchOf = (ends: WorkEnd, { tries, probability }: Partial): Branch => ({
  tries,
  ends,
  probability,
  milliseconds: tries.reduce((sum, { milliseconds }) => sum + milliseconds, 0),
});
