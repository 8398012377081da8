import { clearlyLess, nearlyEqual } from './compare-worth.ts';

/** What may come of one child of a choice? Probabilities of a child sum to at most 1; what is missing ends there at no more cost. */
export interface Outcome<S> {
  readonly probability: number;
  readonly state: S;
}

/**
 * What can be chosen in a state? It adds an amount of its own and then every child, each of which comes out one way or
 * another. Children are counted each for itself: they must share no work.
 */
export interface Choice<S> {
  readonly name: string;
  readonly adds: number;
  /** Second figure, which decides among choices whose first figures are equal. */
  readonly second?: number;
  readonly children: readonly (readonly Outcome<S>[])[];
}

/** A stochastic AND/OR problem without circles. */
export interface AndOrProblem<S, C extends Choice<S> = Choice<S>> {
  readonly aim: 'least' | 'most';
  /** States with the same key are the same state. */
  readonly key: (state: S) => string;
  /** At least one; a state that ends has a choice without children. */
  readonly choices: (state: S) => readonly C[];
}

/** What is a state worth under the best policy, and what is chosen there? */
export interface SolvedState<S, C extends Choice<S> = Choice<S>> {
  readonly state: S;
  readonly value: number;
  readonly second: number;
  readonly choice: C;
}

/** States by key, each solved. */
export type SolvedStates<S, C extends Choice<S> = Choice<S>> = Map<string, SolvedState<S, C>>;

/**
 * What is the best policy of an acyclic stochastic AND/OR problem worth?
 *
 * V(s) = best over choices of [ adds + SUM over children of SUM over outcomes of p V(state) ]: a state is an OR node, a
 * choice an AND node, a child a chance node. Each state is worked out once. On equal first figures (to 1e-12, relative)
 * the second figures decide, then the earlier choice. `solved` carries states already solved, and is added to. Throws a
 * RangeError when a state leads back to itself or offers no choice. Cost: states times choices; exponential in the size of
 * most problems that have such a form.
 * Source: Teunter, Omega 34 (2006), recursion f(j, q); Bertsekas and Tsitsiklis' stochastic shortest path, acyclic case.
 */
export const evaluateAndOr = <S, C extends Choice<S> = Choice<S>>(
  problem: AndOrProblem<S, C>,
  root: S,
  solved: SolvedStates<S, C> = new Map(),
): SolvedState<S, C> => {
  const found = solve({ problem, solved, open: new Set(), enter: () => true }, root);
  if (!found) throw new RangeError('a search without a limit ended early');
  return found;
};

/**
 * What is the best policy worth, if that is found before a limit? Asks `enter` before each further state and gives up
 * with undefined at the first no; the states solved until then stay in `solved`. Otherwise as `evaluateAndOr`.
 */
export const evaluateWithin = <S, C extends Choice<S>>(
  problem: AndOrProblem<S, C>,
  root: S,
  limit: { readonly solved: SolvedStates<S, C>; readonly enter: () => boolean },
): SolvedState<S, C> | undefined => solve({ problem, open: new Set(), ...limit }, root);

interface Search<S, C extends Choice<S>> {
  readonly problem: AndOrProblem<S, C>;
  readonly solved: SolvedStates<S, C>;
  readonly open: Set<string>;
  readonly enter: () => boolean;
}

const solve = <S, C extends Choice<S>>(search: Search<S, C>, state: S): SolvedState<S, C> | undefined => {
  const { problem, solved, open } = search;
  const key = problem.key(state);
  const known = solved.get(key);
  if (known) return known;
  if (open.has(key)) throw new RangeError(`the state ${JSON.stringify(key)} leads back to itself`);
  if (!search.enter()) return undefined;
  open.add(key);
  const best = bestOf(search, state);
  open.delete(key);
  if (best) solved.set(key, best);
  return best;
};

const bestOf = <S, C extends Choice<S>>(search: Search<S, C>, state: S): SolvedState<S, C> | undefined => {
  let best: SolvedState<S, C> | undefined;
  const sign = search.problem.aim === 'least' ? 1 : -1;
  for (const choice of search.problem.choices(state)) {
    const worth = choiceWorth(search, choice);
    if (!worth) return undefined;
    if (best === undefined || isBetter(worth, best, sign)) best = { state, ...worth, choice };
  }
  if (best === undefined)
    throw new RangeError(`the state ${JSON.stringify(search.problem.key(state))} offers no choice`);
  return best;
};

interface Worth {
  readonly value: number;
  readonly second: number;
}

const isBetter = (a: Worth, b: Worth, sign: number): boolean =>
  clearlyLess(sign * a.value, sign * b.value) ||
  (nearlyEqual(a.value, b.value) && clearlyLess(sign * a.second, sign * b.second));

const choiceWorth = <S, C extends Choice<S>>(search: Search<S, C>, choice: C): Worth | undefined => {
  let value = choice.adds;
  let second = choice.second ?? 0;
  for (const child of choice.children) {
    for (const { probability, state } of child) {
      const found = solve(search, state);
      if (!found) return undefined;
      value += probability * found.value;
      second += probability * found.second;
    }
  }
  return { value, second };
};
