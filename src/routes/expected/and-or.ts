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

/** What is known of a state that the search no longer enters: the worth of some policy, and what no policy betters. */
export interface LeafWorth {
  readonly value: number;
  readonly second: number;
  readonly bound: number;
}

/** A stochastic AND/OR problem without circles. */
export interface AndOrProblem<S, C extends Choice<S> = Choice<S>> {
  readonly aim: 'least' | 'most';
  /** States with the same key are the same state. */
  readonly key: (state: S) => string;
  /** At least one; a state that ends has a choice without children. */
  readonly choices: (state: S) => readonly C[];
  /** May the search enter one more state? Without it the search is complete. `leaf` must be given along with it. */
  readonly enter?: () => boolean;
  readonly leaf?: (state: S) => LeafWorth;
}

/** What is a state worth under the best policy found, what betters no policy, and what is chosen there? */
export interface SolvedState<S, C extends Choice<S> = Choice<S>> {
  readonly state: S;
  readonly value: number;
  readonly second: number;
  /** Equal to `value` where the search was complete. */
  readonly bound: number;
  /** Undefined where the search did not enter. */
  readonly choice: C | undefined;
}

/** The worth of the root and of every state that was entered or estimated, by key. */
export interface AndOrSolution<S, C extends Choice<S> = Choice<S>> {
  readonly root: SolvedState<S, C>;
  readonly states: ReadonlyMap<string, SolvedState<S, C>>;
}

/**
 * What is the best policy of an acyclic stochastic AND/OR problem worth?
 *
 * V(s) = best over choices of [ adds + SUM over children of SUM over outcomes of p V(state) ]: a state is an OR node, a
 * choice an AND node, a child a chance node. Each state is worked out once. On equal first figures (to 1e-12, relative)
 * the second figures decide, then the earlier choice. Throws a RangeError when a state leads back to itself or offers no
 * choice. `known` carries states already solved, and is added to. Cost: states times choices; exponential in the size of most problems that have such a form.
 * Source: Teunter, Omega 34 (2006), recursion f(j, q); Bertsekas and Tsitsiklis' stochastic shortest path, acyclic case.
 */
export const evaluateAndOr = <S, C extends Choice<S> = Choice<S>>(
  problem: AndOrProblem<S, C>,
  root: S,
  known: Map<string, SolvedState<S, C>> = new Map(),
): AndOrSolution<S, C> => ({ root: solve({ problem, states: known, open: new Set() }, root), states: known });

interface Search<S, C extends Choice<S>> {
  readonly problem: AndOrProblem<S, C>;
  readonly states: Map<string, SolvedState<S, C>>;
  readonly open: Set<string>;
}

const solve = <S, C extends Choice<S>>(search: Search<S, C>, state: S): SolvedState<S, C> => {
  const { problem, states, open } = search;
  const key = problem.key(state);
  const known = states.get(key);
  if (known) return known;
  if (open.has(key)) throw new RangeError(`the state ${JSON.stringify(key)} leads back to itself`);
  const mayEnter = problem.enter?.() ?? true;
  open.add(key);
  const solved = mayEnter ? bestOf(search, state, key) : estimated(problem, state);
  open.delete(key);
  states.set(key, solved);
  return solved;
};

const estimated = <S, C extends Choice<S>>(problem: AndOrProblem<S, C>, state: S): SolvedState<S, C> => {
  const worth = problem.leaf?.(state);
  if (!worth) throw new RangeError('a search with a limit needs an estimate for the states beyond it');
  return { state, ...worth, choice: undefined };
};

const bestOf = <S, C extends Choice<S>>(search: Search<S, C>, state: S, key: string): SolvedState<S, C> => {
  let best: SolvedState<S, C> | undefined;
  let bound: number | undefined;
  const sign = search.problem.aim === 'least' ? 1 : -1;
  for (const choice of search.problem.choices(state)) {
    const worth = choiceWorth(search, choice);
    if (bound === undefined || sign * worth.bound < sign * bound) bound = worth.bound;
    if (best === undefined || isBetter(worth, best, sign)) best = { state, ...worth, choice };
  }
  if (best === undefined || bound === undefined)
    throw new RangeError(`the state ${JSON.stringify(key)} offers no choice`);
  return { ...best, bound };
};

const isBetter = (a: LeafWorth, b: LeafWorth, sign: number): boolean =>
  clearlyLess(sign * a.value, sign * b.value) ||
  (nearlyEqual(a.value, b.value) && clearlyLess(sign * a.second, sign * b.second));

const choiceWorth = <S, C extends Choice<S>>(search: Search<S, C>, choice: C): LeafWorth => {
  let value = choice.adds;
  let bound = choice.adds;
  let second = choice.second ?? 0;
  for (const child of choice.children) {
    for (const { probability, state } of child) {
      const solved = solve(search, state);
      value += probability * solved.value;
      bound += probability * solved.bound;
      second += probability * solved.second;
    }
  }
  return { value, bound, second };
};
