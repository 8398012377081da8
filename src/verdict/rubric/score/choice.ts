import { compare, dividedBy, plus, type Rational, rational, times } from '#quantity/rational';
import type { ModelCap, ModelCriterion, ModelGroup, ModelMetric } from './model.ts';

/** One way the open facts may turn out: which open roles the product has, and which possibility each metric takes. */
export interface Choice {
  readonly roles: ReadonlyMap<string, boolean>;
  readonly at: ReadonlyMap<string, number>;
}

/** What a choice comes to: the weighted mean, and the same under the caps that hold. Undefined where nothing applies. */
export interface Outcome {
  readonly choice: Choice;
  /** Sum of the weights that apply. */
  readonly weights: Rational;
  readonly mean: Rational;
  readonly capped: Rational;
}

/** Which choices are looked at, and what is each possibility of a criterion worth? */
export interface Asking {
  readonly goal: 'most' | 'least';
  readonly worth: (criterion: ModelCriterion, at: number) => Rational;
  /** Must a cap hold, must it not, or is it all the same? */
  readonly demand: (cap: ModelCap) => 'must' | 'must-not' | 'free';
}

const ZERO = rational(0n);

/**
 * Which choice makes the sum of all worths most or least? Exact: every mixture of the open roles of a group is looked at, and
 * for each the best possibility of every metric by itself. Undefined where the demands cannot be met. Of equal choices the
 * first in the order of roles and possibilities. Cost: two to the number of open roles that hang together.
 */
export const bestChoice = (groups: readonly ModelGroup[], asking: Asking): Choice | undefined => {
  const roles = new Map<string, boolean>();
  const at = new Map<string, number>();
  for (const group of groups) {
    const found = bestOfGroup(group, asking);
    if (!found) return undefined;
    for (const [role, is] of found.roles) roles.set(role, is);
    for (const [key, index] of found.at) at.set(key, index);
  }
  return { roles, at };
};

const bestOfGroup = (group: ModelGroup, asking: Asking): Choice | undefined => {
  let best: { readonly sum: Rational; readonly choice: Choice } | undefined;
  for (let mask = 2 ** group.roles.length - 1; mask >= 0; mask -= 1) {
    const roles = new Map(group.roles.map((role, index) => [role, ((mask >> index) & 1) === 1]));
    const found = bestWithRoles(group, roles, asking);
    if (found && (best === undefined || isBetter(found.sum, best.sum, asking.goal)))
      best = { sum: found.sum, choice: { roles, at: found.at } };
  }
  return best?.choice;
};

const isBetter = (a: Rational, b: Rational, goal: Asking['goal']): boolean =>
  goal === 'most' ? compare(a, b) > 0 : compare(a, b) < 0;

const bestWithRoles = (
  group: ModelGroup,
  roles: Choice['roles'],
  asking: Asking,
): { readonly sum: Rational; readonly at: ReadonlyMap<string, number> } | undefined => {
  const at = new Map<string, number>();
  let sum = ZERO;
  for (const metric of group.metrics) {
    const best = bestOfMetric(metric, roles, asking);
    if (!best) return undefined;
    at.set(metric.key, best.index);
    sum = plus(sum, best.sum);
  }
  return { sum, at };
};

const bestOfMetric = (
  metric: ModelMetric,
  roles: Choice['roles'],
  { goal, worth, demand }: Asking,
): { readonly index: number; readonly sum: Rational } | undefined => {
  const criteria = metric.criteria.filter((criterion) => isThere(criterion, roles));
  let best: { readonly index: number; readonly sum: Rational } | undefined;
  for (const index of metric.candidates.keys()) {
    if (!metric.caps.every((cap) => isAdmitted(cap, demand(cap), { index, roles }))) continue;
    const sum = criteria.reduce((total, criterion) => plus(total, worth(criterion, index)), ZERO);
    if (best === undefined || isBetter(sum, best.sum, goal)) best = { index, sum };
  }
  return best;
};

/** Does a criterion or cap apply with these roles? */
export const isThere = ({ openRoles }: { readonly openRoles: readonly string[] }, roles: Choice['roles']): boolean =>
  openRoles.every((role) => roles.get(role) === true);

const isAdmitted = (
  cap: ModelCap,
  demand: 'must' | 'must-not' | 'free',
  { index, roles }: { readonly index: number; readonly roles: Choice['roles'] },
): boolean => {
  if (demand === 'free') return true;
  const holds = isThere(cap, roles) && cap.holds[index] === true;
  return demand === 'must' ? holds : !holds;
};

/** What does a choice come to? Undefined where no criterion applies, so that there is no mean. */
export const outcomeOf = (groups: readonly ModelGroup[], choice: Choice): Outcome | undefined => {
  let [weights, weighted] = [ZERO, ZERO];
  let lowest: Rational | undefined;
  for (const metric of groups.flatMap(({ metrics }) => metrics)) {
    const index = choice.at.get(metric.key) ?? 0;
    for (const criterion of metric.criteria.filter((each) => isThere(each, choice.roles))) {
      weights = plus(weights, criterion.weight);
      weighted = plus(weighted, times(criterion.weight, criterion.points[index] ?? ZERO));
    }
    for (const cap of metric.caps.filter((each) => isThere(each, choice.roles) && each.holds[index] === true))
      if (lowest === undefined || compare(cap.atMost, lowest) < 0) lowest = cap.atMost;
  }
  if (compare(weights, ZERO) === 0) return undefined;
  const mean = dividedBy(weighted, weights);
  return { choice, weights, mean, capped: lowest !== undefined && compare(lowest, mean) < 0 ? lowest : mean };
};
