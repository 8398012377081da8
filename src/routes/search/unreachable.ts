import type { Fact, RouteProblem } from '../problem/route-problem.ts';
import { type PlanGraph, planGraph } from '../structure/plan-graph.ts';
import { reachable } from '../structure/reach.ts';
import { type Barrier, type Blocking, blockingOf } from './blocking.ts';
import { missingTools } from './missing-tools.ts';
import type { StepSearchOptions } from './search-context.ts';
import { isAdmitted, usableActions } from './usable.ts';

/** There is no route, and this is why. */
export interface Unreachable {
  readonly kind: 'unreachable';
  readonly targets: readonly Fact[];
  /** One sentence: what bars the way in words, or the tools that would open a route. */
  readonly why: string;
  readonly barriers: readonly Barrier[];
  /** What has to be lifted at the least: those that bar every way, and the smallest set that opens one with them. */
  readonly blocking: Blocking;
  /** Where only tools are missing: every smallest set that would have to be added, tool ids sorted. */
  readonly addTools: readonly (readonly string[])[];
}

const idOf = (fact: Fact): string => fact.slice(fact.indexOf('/') + 1);

const stateOf = (fact: Fact): 'released' | 'off' | 'free' =>
  fact.startsWith('released/') ? 'released' : fact.startsWith('off/') ? 'off' : 'free';

const STATE_WORDS = { released: 'it released', off: 'it off', free: 'it free' } as const;

const barrier = (graph: PlanGraph, fact: Fact, options: StepSearchOptions): Barrier => {
  const { problem } = graph;
  const achievers = graph.achievers[graph.factIds.get(fact) ?? -1] ?? [];
  const ways = achievers.flatMap((way) => graph.actions[way] ?? []);
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
  const usable = usableActions(graph, options);
  if (!achievers.some((way) => usable[way] === 1)) return why('tools', 'no way with these tools');
  return why('circle', `every way needs something that itself needs ${STATE_WORDS[stateOf(fact)]}`);
};

/** What the targets wait for, walking back: facts not reached, each with those before it that are not reached either. */
const waitingOn = (
  graph: PlanGraph,
  targets: readonly Fact[],
  { usable, reached }: { readonly usable: Uint8Array; readonly reached: Uint8Array },
): Map<Fact, readonly Fact[]> => {
  const waits = new Map<Fact, readonly Fact[]>();
  const stack = [...targets];
  for (let fact = stack.pop(); fact !== undefined; fact = stack.pop()) {
    const id = graph.factIds.get(fact);
    if (waits.has(fact) || (id !== undefined && reached[id] === 1)) continue;
    const open = (id === undefined ? [] : (graph.achievers[id] ?? [])).filter((way) => usable[way] === 1);
    const before = open.flatMap((way) => [...(graph.needs[way] ?? []), ...(graph.clauses[way] ?? []).flat(2)]);
    const unmet = before.flatMap((one) => (reached[one] === 1 ? [] : (graph.facts[one] ?? [])));
    waits.set(fact, [...new Set(unmet)]);
    stack.push(...unmet);
  }
  return waits;
};

/** What a fact waits for, directly or not. */
const allBefore = (fact: Fact, waits: ReadonlyMap<Fact, readonly Fact[]>): ReadonlySet<Fact> => {
  const before = new Set<Fact>();
  const stack = [...(waits.get(fact) ?? [])];
  for (let one = stack.pop(); one !== undefined; one = stack.pop()) {
    if (before.has(one)) continue;
    before.add(one);
    stack.push(...(waits.get(one) ?? []));
  }
  return before;
};

/**
 * Facts that wait for nothing that could be had: those without a usable way, and those that wait for one another only. What waits
 * for something else besides shows itself once that is lifted, so what was found is lifted and the search goes on until the targets
 * are reached. Sorted by fact.
 */
const barriersOf = (graph: PlanGraph, targets: readonly Fact[], options: StepSearchOptions): Barrier[] => {
  const usable = usableActions(graph, options);
  const found = new Set<Fact>();
  for (;;) {
    const { facts: reached } = reachable(graph, usable, idsOf(graph, [...(options.given ?? []), ...found]));
    const waits = waitingOn(graph, targets, { usable, reached });
    for (const fact of found) waits.delete(fact);
    if (waits.size === 0) break;
    const without = [...waits.keys()].filter((fact) => waits.get(fact)?.length === 0);
    for (const fact of without.length > 0 ? without : circlesOf(waits)) found.add(fact);
  }
  return [...found].sort().map((fact) => barrier(graph, fact, options));
};

/** Facts that wait for one another, and for nothing that does not wait for them. */
const circlesOf = (waits: ReadonlyMap<Fact, readonly Fact[]>): readonly Fact[] => {
  const before = new Map([...waits.keys()].map((fact) => [fact, allBefore(fact, waits)]));
  return [...before].flatMap(([fact, all]) => ([...all].every((one) => before.get(one)?.has(fact)) ? [fact] : []));
};

const idsOf = (graph: PlanGraph, facts: readonly Fact[]): readonly number[] =>
  facts.flatMap((fact) => graph.factIds.get(fact) ?? []);

/** Is there a route with these barriers lifted? What is reached without them, and how, is worked out once. */
const opensWith = (
  graph: PlanGraph,
  targets: readonly Fact[],
  options: StepSearchOptions,
): ((lifted: readonly Barrier[]) => boolean) => {
  const usable = usableActions(graph, options);
  const { facts: base } = reachable(graph, usable, idsOf(graph, options.given ?? []));
  const known = [...base.keys()].filter((fact) => base[fact] === 1);
  const further = usable.map((can, action) =>
    can === 1 && graph.gives[action]?.some((fact) => base[fact] !== 1) ? 1 : 0,
  );
  return (lifted) => {
    const facts = lifted.map(({ fact }) => fact);
    const { facts: reached } = reachable(graph, further, [...known, ...idsOf(graph, facts)]);
    // A target that no action gives is no fact of the graph: only lifting it would do.
    return targets.every((target) => reached[graph.factIds.get(target) ?? -1] === 1 || facts.includes(target));
  };
};

/** Why can these targets not be reached, and which smallest sets of further tools would open a route? */
export const whyUnreachable = (
  problem: RouteProblem,
  targets: readonly Fact[],
  options: StepSearchOptions,
): Unreachable => {
  const graph = planGraph(problem);
  const barriers = barriersOf(graph, targets, options);
  const opens = opensWith(graph, targets, options);
  const addTools = options.tools ? missingTools(graph, targets, options) : [];
  const found = { kind: 'unreachable' as const, targets, barriers, blocking: blockingOf(barriers, opens), addTools };
  return { ...found, why: unreachableWords(found, (id) => id) };
};

/** Why is there no route, in words? Parts, fasteners and tools as `nameOf` calls them: `camera ring screws, by driver`. */
export const unreachableWords = (
  { blocking: { every, besides }, addTools }: Pick<Unreachable, 'blocking' | 'addTools'>,
  nameOf: (id: string) => string,
): string => {
  const tools = addTools.map((set) => set.map(nameOf).join(' + ')).join(', or ');
  if (tools) return `not with these tools: add ${tools}`;
  if (every.length + besides.length === 0) return 'no action gives the target';
  const listed = (barriers: readonly Barrier[]): string => barriers.map((one) => barrierWords(one, nameOf)).join('; ');
  if (besides.length === 0) return listed(every);
  const fewest = `the fewest that would open a way: ${listed(besides)}`;
  return every.length === 0 ? fewest : `${listed(every)}; and of the rest ${fewest}`;
};

const barrierWords = ({ fact, reason, ways }: Barrier, nameOf: (id: string) => string): string =>
  `${nameOf(idOf(fact))}: ${reason}${ways.length > 0 ? ` (${ways.map((way) => wayWords(way, nameOf)).join('; ')})` : ''}`;

const wayWords = (action: string, nameOf: (id: string) => string): string => {
  const [verb = '', subject = '', ...way] = action.split('/');
  if (way.length > 0) return `${nameOf(subject)}, by ${way.join(' ').replaceAll('-', ' ')}`;
  return `${verb} ${nameOf(subject)}`;
};
