import { negated, plus, type Rational, rational, times } from '#quantity/rational';

/** A value that is a sum of named components; a component that is not there is 0. */
export type Components = ReadonlyMap<string, Rational>;

/** What does each factor add to a change, component by component? In the order of the factors. */
export type FactorShares = readonly Components[];

/**
 * How much of a change does each of several factors make? Factors are turned from old to new one after another; what the value
 * gains when a factor is turned is that factor's step, and each factor gets the average of its steps over every order in which
 * the factors can be turned. All steps of one order add up to the change, hence so do the averages, exactly; turning back flips
 * the sign; a factor that never moves the value gets 0. (L. S. Shapley, A value for n-person games, Contributions to the Theory
 * of Games II, 1953, 307-317: the average; B. W. Ang, F. L. Liu and E. P. Chew, Perfect decomposition techniques in energy and
 * environmental analysis, Energy Policy 31, 2003, 1561-1566: its use to split a change without rest. Both from memory.) With
 * two factors that multiply this is the midpoint split.
 *
 * `valueAt` is asked once for every set of turned factors, as bits; `undefined` where there is no value. Orders that lead
 * through such a set are left out; the result is `undefined` where no order is left. Cost: two to the number of factors.
 */
export const averageOverOrders = (
  factors: number,
  valueAt: (turned: number) => Components | undefined,
): FactorShares | undefined => {
  const sets = Array.from({ length: 2 ** factors }, (_, turned) => turned);
  const values = sets.map(valueAt);
  const isThere = (turned: number): boolean => values[turned] !== undefined;
  const before = ordersUpTo(sets, factors, isThere);
  const after = [...ordersUpTo([...sets].reverse(), factors, isThere)];
  const orders = before[sets.length - 1] ?? 0n;
  if (orders === 0n) return undefined;
  const shares = Array.from({ length: factors }, () => new Map<string, Rational>());
  for (const set of sets)
    for (const [factor, share] of shares.entries()) {
      const turned = set | (1 << factor);
      const passing = (before[set] ?? 0n) * (after[turned] ?? 0n);
      const [from, to] = [values[set], values[turned]];
      if (turned !== set && passing > 0n && from && to) addStep(share, { from, to, part: rational(passing, orders) });
    }
  return shares;
};

/** How many orders lead to each set, from the first of the list on? Read backwards, how many lead from it to the last. */
const ordersUpTo = (
  sets: readonly number[],
  factors: number,
  isThere: (turned: number) => boolean,
): readonly bigint[] => {
  const counts: bigint[] = [];
  const [start = 0] = sets;
  for (const set of sets) {
    const neighbours = Array.from({ length: factors }, (_, factor) => set ^ (1 << factor));
    const reached = neighbours.reduce((sum, neighbour) => sum + (counts[neighbour] ?? 0n), 0n);
    counts[set] = isThere(set) ? (set === start ? 1n : reached) : 0n;
  }
  return counts;
};

interface Step {
  readonly from: Components;
  readonly to: Components;
  readonly part: Rational;
}

const ZERO = rational(0n);

const addStep = (share: Map<string, Rational>, { from, to, part }: Step): void => {
  for (const name of new Set([...from.keys(), ...to.keys()])) {
    const step = plus(to.get(name) ?? ZERO, negated(from.get(name) ?? ZERO));
    if (step.numerator !== 0n) share.set(name, plus(share.get(name) ?? ZERO, times(part, step)));
  }
};

/** What do all components add up to? */
export const sumOf = (components: Components): Rational => [...components.values()].reduce(plus, ZERO);
