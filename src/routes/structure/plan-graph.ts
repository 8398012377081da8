import type { Fact, RouteAction, RouteProblem } from '../problem/route-problem.ts';
import { structuralOrder } from './structural-order.ts';

/**
 * Which facts and actions does a route problem have, as integers? Actions stand in structural order, so that nothing that
 * reads them in order depends on names or on the order of input; facts follow from that order.
 */
export interface PlanGraph {
  readonly problem: RouteProblem;
  readonly facts: readonly Fact[];
  readonly factIds: ReadonlyMap<Fact, number>;
  readonly actions: readonly RouteAction[];
  /** By action: facts that must all hold. */
  readonly needs: readonly (readonly number[])[];
  /** By action: clauses, each a list of alternatives, each a list of facts that hold together. */
  readonly clauses: readonly (readonly (readonly (readonly number[])[])[])[];
  readonly gives: readonly (readonly number[])[];
  /** By fact: the actions that give it. */
  readonly achievers: readonly (readonly number[])[];
}

const known = new WeakMap<RouteProblem, PlanGraph>();

/** Facts in an order that follows from the order of the actions alone: by who gives them, then by who wants them. */
const orderedFacts = (actions: readonly RouteAction[]): Fact[] => {
  const mentions = new Map<Fact, { gives: number[]; needs: number[] }>();
  const mentioned = (fact: Fact): { gives: number[]; needs: number[] } => {
    const entry = mentions.get(fact) ?? { gives: [], needs: [] };
    mentions.set(fact, entry);
    return entry;
  };
  for (const [index, action] of actions.entries()) {
    for (const fact of action.gives) mentioned(fact).gives.push(index);
    for (const fact of action.needs) mentioned(fact).needs.push(index);
    for (const fact of action.anyOf.flat(2)) mentioned(fact).needs.push(index);
  }
  const keyed = [...mentions].map(([fact, { gives, needs }]) => ({ fact, key: [...gives, -1, ...needs] }));
  return keyed.sort((a, b) => compareLists(a.key, b.key) || (a.fact < b.fact ? -1 : 1)).map(({ fact }) => fact);
};

const compareLists = (a: readonly number[], b: readonly number[]): number => {
  for (let index = 0; index < a.length && index < b.length; index++) {
    const difference = (a[index] ?? 0) - (b[index] ?? 0);
    if (difference !== 0) return difference;
  }
  return a.length - b.length;
};

const build = (problem: RouteProblem): PlanGraph => {
  const actions = structuralOrder(problem);
  const facts = orderedFacts(actions);
  const factIds = new Map(facts.map((fact, index) => [fact, index]));
  const ids = (names: readonly Fact[]): number[] =>
    [...new Set(names)].map((name) => factIds.get(name) ?? 0).sort((a, b) => a - b);
  const gives = actions.map((action) => ids(action.gives));
  const needs = actions.map((action) => ids(action.needs));
  const clauses = actions.map((action) => action.anyOf.map((clause) => clause.map(ids).sort(compareLists)));
  const achievers: number[][] = facts.map(() => []);
  for (const [action, given] of gives.entries()) for (const id of given) achievers[id]?.push(action);
  return { problem, facts, factIds, actions, needs, clauses, gives, achievers };
};

/** Which facts and actions does this problem have, as integers? Kept per problem object; cost linear in its size. */
export const planGraph = (problem: RouteProblem): PlanGraph => {
  const old = known.get(problem);
  if (old) return old;
  const graph = build(problem);
  known.set(problem, graph);
  return graph;
};

/** Do all preconditions of an action hold, given a test for facts? */
export const isApplicable = (graph: PlanGraph, action: number, holds: (fact: number) => boolean): boolean =>
  (graph.needs[action] ?? []).every(holds) &&
  (graph.clauses[action] ?? []).every((clause) => clause.some((alternative) => alternative.every(holds)));
