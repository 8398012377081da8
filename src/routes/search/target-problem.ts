import type { Fact } from '../problem/route-problem.ts';
import { partOfFact } from '../steps/stretch.ts';
import { hasNode, type Landmarks } from '../structure/landmarks.ts';
import type { PlanGraph } from '../structure/plan-graph.ts';

/** A clause of one action as bit masks: at least one alternative must hold. */
export type ClauseMasks = readonly Int32Array[];

/** What is left of a problem for one goal: the actions that can matter, over the facts that can matter, as bit sets. */
export interface TargetProblem {
  readonly graph: PlanGraph;
  readonly targets: readonly number[];
  /** Graph numbers of the actions that can matter, in structural order. */
  readonly actions: readonly number[];
  /** Graph numbers of the local facts. */
  readonly facts: readonly number[];
  readonly words: number;
  readonly needs: readonly Int32Array[];
  readonly clauses: readonly (readonly ClauseMasks[])[];
  readonly gives: readonly Int32Array[];
  readonly goal: Int32Array;
  /** Facts that some action or the goal wants; an action that newly gives none of them is never taken. */
  readonly wanted: Int32Array;
  /** Facts that begin a new stretch: other priority parts, set aside or free. */
  readonly resets: Int32Array;
  /** Local facts on every route to the goal. */
  readonly mandatory: readonly number[];
  /** Facts among `resets` on every route that the action which completes the goal cannot give. */
  readonly mandatoryResets: Int32Array;
}

/** What is a target problem cut from? */
export interface CutOptions {
  readonly targets: readonly Fact[];
  readonly usable: Uint8Array;
  readonly given: ReadonlySet<number>;
  readonly landmarks: Landmarks;
}

interface Cut {
  readonly graph: PlanGraph;
  readonly options: CutOptions;
  readonly targets: readonly number[];
  readonly clauses: Map<number, (readonly (readonly number[])[])[]>;
}

/** Alternatives that can be met, without what holds already; none of them within another. Undefined: the clause holds already. */
const liveClause = (cut: Cut, clause: readonly (readonly number[])[]): (readonly number[])[] | undefined => {
  const live: number[][] = [];
  for (const alternative of clause) {
    const open = alternative.filter((fact) => !cut.options.given.has(fact));
    if (open.length === 0) return undefined;
    if (open.every((fact) => cut.options.landmarks.ofFact(fact))) live.push(open);
  }
  return live.filter(
    (one, index) =>
      !live.some(
        (other, at) =>
          at !== index && other.every((fact) => one.includes(fact)) && (other.length < one.length || at < index),
      ),
  );
};

const liveClauses = (cut: Cut, action: number): (readonly (readonly number[])[])[] => {
  const old = cut.clauses.get(action);
  if (old) return old;
  const needs = cut.graph.needs[action] ?? [];
  const comesWithNeeds = (fact: number): boolean =>
    cut.options.given.has(fact) ||
    needs.some((need) => hasNode(cut.options.landmarks.ofFact(need) ?? new Int32Array(0), fact));
  const live = (cut.graph.clauses[action] ?? []).flatMap((clause) => {
    if (clause.some((alternative) => alternative.every(comesWithNeeds))) return [];
    const kept = liveClause(cut, clause);
    return kept ? [kept] : [];
  });
  cut.clauses.set(action, live);
  return live;
};

/** Could this action be the one that first gives the fact on some route that has not reached the goal yet? */
const isPossible = (cut: Cut, action: number, fact: number): boolean => {
  if (!cut.options.usable[action]) return false;
  const before = cut.options.landmarks.ofAction(action);
  return before !== undefined && !hasNode(before, fact) && !cut.targets.every((target) => hasNode(before, target));
};

/** Backwards from the goal: every fact that is wanted and every action that can give it. */
const relevant = (cut: Cut): { wanted: ReadonlySet<number>; actions: readonly number[] } => {
  const wanted = new Set<number>();
  const actions = new Set<number>();
  const stack = [...cut.targets];
  for (let fact = stack.pop(); fact !== undefined; fact = stack.pop()) {
    if (wanted.has(fact) || cut.options.given.has(fact)) continue;
    wanted.add(fact);
    for (const action of cut.graph.achievers[fact] ?? []) {
      if (actions.has(action) || !isPossible(cut, action, fact)) continue;
      actions.add(action);
      stack.push(...(cut.graph.needs[action] ?? []), ...liveClauses(cut, action).flat(2));
    }
  }
  return { wanted, actions: [...actions].sort((a, b) => a - b) };
};

/** A bit mask over local facts. Facts that are not local (given, or wanted by nobody) are left out. */
const maskOf = (facts: Iterable<number>, local: ReadonlyMap<number, number>, words: number): Int32Array => {
  const mask = new Int32Array(words);
  for (const fact of facts) {
    const bit = local.get(fact);
    if (bit !== undefined) mask[bit >> 5] = (mask[bit >> 5] ?? 0) | (1 << (bit & 31));
  }
  return mask;
};

/** Which facts begin a new stretch when they become true: priority parts other than the targets' own? */
const resetFacts = (graph: PlanGraph, targets: readonly Fact[]): ReadonlySet<number> => {
  const own = new Set(targets.map(partOfFact));
  const resets = new Set<number>();
  for (const part of graph.problem.priorityParts) {
    if (own.has(part)) continue;
    for (const fact of [graph.factIds.get(`off/${part}`), graph.factIds.get(`free/${part}`)])
      if (fact !== undefined) resets.add(fact);
  }
  return resets;
};

/**
 * What of a problem can matter for reaching the targets? Undefined where they cannot be reached. Actions that no minimal route
 * takes are left out; that leaves every minimal route in (docs/method/best-found.md, "What is left out").
 */
export const cutTarget = (graph: PlanGraph, options: CutOptions): TargetProblem | undefined => {
  const targets: number[] = [];
  for (const target of options.targets) {
    const fact = graph.factIds.get(target);
    if (fact === undefined || !options.landmarks.ofFact(fact)) return undefined;
    targets.push(fact);
  }
  const cut: Cut = { graph, options, targets, clauses: new Map() };
  const { wanted, actions } = relevant(cut);
  const resets = resetFacts(graph, options.targets);
  const facts = new Set(wanted);
  for (const action of actions)
    for (const fact of graph.gives[action] ?? []) if (resets.has(fact) && !options.given.has(fact)) facts.add(fact);
  const local = new Map([...facts].map((fact, index) => [fact, index]));
  const words = (local.size >> 5) + 1;
  const mask = (list: Iterable<number>): Int32Array => maskOf(list, local, words);
  const isMandatory = (fact: number): boolean =>
    targets.some((target) => hasNode(options.landmarks.ofFact(target) ?? new Int32Array(0), fact));
  const completing = new Set(
    actions
      .filter((action) => graph.gives[action]?.some((fact) => targets.includes(fact)))
      .flatMap((a) => graph.gives[a] ?? []),
  );
  return {
    graph,
    targets,
    actions,
    facts: [...facts],
    words,
    needs: actions.map((action) => mask(graph.needs[action] ?? [])),
    clauses: actions.map((action) => liveClauses(cut, action).map((clause) => clause.map(mask))),
    gives: actions.map((action) => mask(graph.gives[action] ?? [])),
    goal: mask(targets),
    wanted: mask(wanted),
    resets: mask(resets),
    mandatory: [...facts].filter(isMandatory),
    mandatoryResets: mask([...resets].filter((fact) => isMandatory(fact) && !completing.has(fact))),
  };
};
