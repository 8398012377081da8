import type { Fact, RouteProblem } from '../problem/route-problem.ts';
import { type PlanGraph, planGraph } from '../structure/plan-graph.ts';
import { reachable } from '../structure/reach.ts';
import { missingTools } from './missing-tools.ts';
import type { StepSearchOptions } from './search-context.ts';
import { isAdmitted, usableActions } from './usable.ts';

/** Why does one fact bar the way? What the problem says, or what keeps its ways from being taken. */
export interface Barrier {
  readonly fact: Fact;
  readonly why: 'stated' | 'no-action' | 'not-shown' | 'destroys' | 'tools' | 'circle';
  /** In words, without the part or fastener concerned and its ways. */
  readonly reason: string;
  /** Action ids of the ways that there are, sorted. */
  readonly ways: readonly string[];
}

/** There is no route, and this is why. */
export interface Unreachable {
  readonly kind: 'unreachable';
  readonly targets: readonly Fact[];
  /** One sentence: the first barrier in words, or the tools that would open a route. */
  readonly why: string;
  readonly barriers: readonly Barrier[];
  /** Where only tools are missing: every smallest set that would have to be added, tool ids sorted. */
  readonly addTools: readonly (readonly string[])[];
}

const idOf = (fact: Fact): string => fact.slice(fact.indexOf('/') + 1);

const stateOf = (fact: Fact): 'released' | 'off' | 'free' =>
  fact.startsWith('released/') ? 'released' : fact.startsWith('off/') ? 'off' : 'free';

const STATE_WORDS = { released: 'it released', off: 'it off', free: 'it free' } as const;

const barrier = (graph: PlanGraph, fact: Fact, options: StepSearchOptions): Barrier => {
  const { problem } = graph;
  const ways = (graph.achievers[graph.factIds.get(fact) ?? -1] ?? []).flatMap((way) => graph.actions[way] ?? []);
  const id = idOf(fact);
  const why = (kind: Barrier['why'], reason: string, named = true): Barrier => ({
    fact,
    why: kind,
    reason,
    ways: named ? ways.map((way) => way.id).sort() : [],
  });
  const stated = problem.unreachable[id];
  if (stated !== undefined) return why('stated', stated, false);
  if (ways.length === 0) return why('no-action', `no action gives ${STATE_WORDS[stateOf(fact)]}`);
  if (ways.every((way) => way.shown === undefined) && options.allowNotShown !== true)
    return why('not-shown', 'never shown to work');
  if (!ways.some((way) => isAdmitted(way, options))) return why('destroys', 'every way shown destroys its fastener');
  if (options.tools !== undefined) return why('tools', 'no way with these tools');
  return why('circle', `every way needs something that itself needs ${STATE_WORDS[stateOf(fact)]}`);
};

/** Facts that are not reached though everything wanted before their ways is, walking back from the targets. */
const barriersOf = (graph: PlanGraph, targets: readonly Fact[], options: StepSearchOptions): Barrier[] => {
  const usable = usableActions(graph, options);
  const given = (options.given ?? []).flatMap((fact) => graph.factIds.get(fact) ?? []);
  const { facts: reached } = reachable(graph, usable, given);
  const seen = new Set<Fact>();
  const found: Barrier[] = [];
  const stack = [...targets];
  for (let fact = stack.pop(); fact !== undefined; fact = stack.pop()) {
    const id = graph.factIds.get(fact);
    if (seen.has(fact) || (id !== undefined && reached[id] === 1)) continue;
    seen.add(fact);
    const ways = id === undefined ? [] : (graph.achievers[id] ?? []);
    const open = ways.filter((way) => usable[way] === 1);
    const before = open.flatMap((way) => [...(graph.needs[way] ?? []), ...(graph.clauses[way] ?? []).flat(2)]);
    const unmet = before.flatMap((one) => (reached[one] === 1 ? [] : (graph.facts[one] ?? [])));
    if (open.length === 0 || unmet.every((one) => seen.has(one))) found.push(barrier(graph, fact, options));
    stack.push(...unmet);
  }
  return found.sort((a, b) => (a.fact < b.fact ? -1 : 1));
};

/** Why can these targets not be reached, and which smallest sets of further tools would open a route? */
export const whyUnreachable = (
  problem: RouteProblem,
  targets: readonly Fact[],
  options: StepSearchOptions,
): Unreachable => {
  const graph = planGraph(problem);
  const barriers = barriersOf(graph, targets, options);
  const addTools = options.tools ? missingTools(graph, targets, options) : [];
  const found = { kind: 'unreachable' as const, targets, barriers, addTools };
  return { ...found, why: unreachableWords(found, (id) => id) };
};

/** Why is there no route, in words? Parts, fasteners and tools as `nameOf` calls them: `camera ring screws, by driver`. */
export const unreachableWords = (
  { barriers: [first], addTools }: Pick<Unreachable, 'barriers' | 'addTools'>,
  nameOf: (id: string) => string,
): string => {
  const tools = addTools.map((set) => set.map(nameOf).join(' + ')).join(', or ');
  if (tools) return `not with these tools: add ${tools}`;
  if (!first) return 'no action gives the target';
  const ways = first.ways.length > 0 ? ` (${first.ways.map((way) => wayWords(way, nameOf)).join('; ')})` : '';
  return `${nameOf(idOf(first.fact))}: ${first.reason}${ways}`;
};

const wayWords = (action: string, nameOf: (id: string) => string): string => {
  const [verb = '', subject = '', ...way] = action.split('/');
  if (way.length > 0) return `${nameOf(subject)}, by ${way.join(' ').replaceAll('-', ' ')}`;
  return `${verb} ${nameOf(subject)}`;
};
