import { relevantActions } from '#routes/expected/relevant-actions';
import type { Fact, RouteAction, RouteProblem } from '#routes/problem/route-problem';
import { dominators } from '#routes/search/dominators';
import { isAdmitted } from '#routes/search/usable';
import { partOfFact } from '#routes/steps/stretch';
import { fewestPossible, type RouteProblems } from './best-search.ts';
import type { Judging } from './judge-sequence.ts';

/** What of the routes to a part can no open trial change? */
export interface Settled {
  /** What must be off before each thing that can matter: then a completion can only add ways of doing the same things. */
  readonly conditions: boolean;
  /** The ways as well: then the routes are what they are. */
  readonly ways: boolean;
}

/** What may be on a route to one part, whatever turns out of the open trials? */
export interface RouteScope {
  readonly part: string;
  readonly settled: Settled;
  /** Could a route of at most the shown steps make a fact true? Yes where that is not excluded. */
  readonly mayHold: (fact: Fact) => boolean;
  readonly candidates: readonly RouteAction[];
  /** Facts on every route. */
  readonly certain: ReadonlySet<Fact>;
  /** Facts on every way to a fact. */
  readonly before: (fact: Fact) => ReadonlySet<Fact>;
}

/** States that one question about a further fact may take up; its bound then stands. */
const SIDE_LIMITS = { nodes: 2000 };

const settledTargets = new WeakMap<RouteProblems, Map<string, Settled>>();

const conditionOf = ({ kind, subject, needs, anyOf }: RouteAction): string =>
  JSON.stringify([kind, subject, needs, anyOf]);

/**
 * What of the routes to a part can no open trial change? Where everything that can matter to it has one and the same condition
 * by what is shown and by what nothing excludes, every completion has that condition too.
 */
const settledRoutes = (problems: RouteProblems, part: string): Settled => {
  const known = settledTargets.get(problems) ?? new Map<string, Settled>();
  settledTargets.set(problems, known);
  const old = known.get(part);
  if (old) return old;
  const shown = admitted(problems.pessimistic);
  const conditions = new Set(shown.map(conditionOf));
  const ids = new Set(shown.map((action) => action.id));
  const matter = relevantActions(admitted(problems.optimistic), `free/${part}`).actions;
  const same = matter.length > 0 && matter.every((action) => conditions.has(conditionOf(action)));
  const settled = { conditions: same, ways: same && matter.every((action) => ids.has(action.id)) };
  known.set(part, settled);
  return settled;
};

const admitted = (problem: RouteProblem): readonly RouteAction[] =>
  problem.actions.filter((action) => isAdmitted(action, {}));

const factOf = (action: RouteAction): Fact =>
  action.kind === 'release'
    ? `released/${action.subject}`
    : action.kind === 'lift'
      ? `free/${action.subject}`
      : `off/${action.subject}`;

const dominatorSets = new WeakMap<RouteProblem, Map<Fact, ReadonlySet<Fact>>>();

const dominatorsOf = (problem: RouteProblem, fact: Fact): ReadonlySet<Fact> => {
  const known = dominatorSets.get(problem) ?? new Map<Fact, ReadonlySet<Fact>>();
  dominatorSets.set(problem, known);
  const old = known.get(fact);
  if (old) return old;
  const found = new Set(dominators(problem, fact, {})?.facts ?? []);
  known.set(fact, found);
  return found;
};

/**
 * What may be on a route of at most so many steps to a part? With open trials any action of the device can come to be needed,
 * so each is asked for its fewest steps together with the part; undefined steps exclude nothing.
 */
export const routeScope = (problems: RouteProblems, judging: Judging, mostSteps: number | undefined): RouteScope => {
  const problem = problems.optimistic;
  const target: Fact = `free/${judging.part}`;
  const settled = settledRoutes(problems, judging.part);
  const candidates = settled.conditions ? relevantActions(admitted(problem), target).actions : admitted(problem);
  const certain = dominatorsOf(problem, target);
  const mayHold = (fact: Fact): boolean => {
    if (mostSteps === undefined || certain.has(fact)) return true;
    // The shortest route of all may do it as it is; and what is dearer by itself than that is dearer with the part.
    const shortest = fewestPossible(problems, [target], judging);
    if (
      shortest.kind === 'found' &&
      shortest.steps <= mostSteps &&
      shortest.actions.some(({ gives }) => gives.includes(fact))
    )
      return true;
    if (isDearer(fewestPossible(problems, [fact], { ...judging, limits: SIDE_LIMITS }), mostSteps)) return false;
    return !isDearer(fewestPossible(problems, [target, fact], { ...judging, limits: SIDE_LIMITS }), mostSteps);
  };
  return {
    part: judging.part,
    settled,
    candidates,
    mayHold,
    certain,
    before: (fact) => dominatorsOf(problem, fact),
  };
};

const isDearer = (found: ReturnType<typeof fewestPossible>, mostSteps: number): boolean =>
  found.kind !== 'found' || found.bound > mostSteps;

/**
 * After which facts can no other priority part begin a new stretch? After those that come behind every other priority part that
 * could be on a route. Parts that are on every route are asked first: they need no search.
 */
export const afterAllResets = (scope: RouteScope, priorityParts: readonly string[]): ((fact: Fact) => boolean) => {
  const movers = scope.candidates.filter((action) => action.subject !== scope.part);
  const moved = new Set(movers.flatMap((action) => action.gives.flatMap((fact) => partOfFact(fact) ?? [])));
  const resets = priorityParts
    .filter((part) => part !== scope.part && moved.has(part))
    .map((part): Fact => `off/${part}`)
    .sort((a, b) => Number(scope.certain.has(b)) - Number(scope.certain.has(a)));
  return (fact) => {
    const before = scope.before(fact);
    return resets.every((reset) => before.has(reset) || !scope.mayHold(reset));
  };
};

/** Which facts come before a new stretch begins on every route, so that what gives them lies outside it? */
export const surelyBeforeStretch = (scope: RouteScope, priorityParts: readonly string[]): ReadonlySet<Fact> => {
  const withTarget = new Set(
    scope.candidates.filter((action) => action.gives.includes(`free/${scope.part}`)).flatMap((action) => action.gives),
  );
  const resets = priorityParts
    .filter((part) => part !== scope.part)
    .map((part): Fact => `off/${part}`)
    .filter((fact) => scope.certain.has(fact) && !withTarget.has(fact));
  return new Set(resets.flatMap((fact) => [...scope.before(fact)]));
};

/** The fact that an action is taken for. */
export const mainFact = factOf;
