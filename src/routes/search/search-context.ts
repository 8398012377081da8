import type { Fact, RouteAction, RouteProblem } from '../problem/route-problem.ts';
import type { CountingRules } from '../steps/counting-rules.ts';
import { counterVocabulary, MAX_COUNTER_NAMES } from '../steps/step-counter.ts';
import { holdingAidsOf, type RoutePoints } from '../steps/stretch.ts';
import { type Landmarks, landmarks } from '../structure/landmarks.ts';
import { type PlanGraph, planGraph } from '../structure/plan-graph.ts';
import { HandTable } from './hand-table.ts';
import { type Levels, levelsOf } from './levels.ts';
import { type UsableOptions, usableActions } from './usable.ts';

/** What does every search over steps need to be told? */
export interface StepSearchOptions extends UsableOptions {
  readonly rules: CountingRules;
  /** Facts that hold from the start, as where a fastener were already released. */
  readonly given?: readonly Fact[];
  /** Actions left out of account, by id. */
  readonly without?: ReadonlySet<string>;
}

/** What several searches of one problem share: the graph, what may be used, what holds already, and landmarks. */
export interface SearchContext {
  readonly graph: PlanGraph;
  readonly usable: Uint8Array;
  readonly given: ReadonlySet<number>;
  readonly landmarks: Landmarks;
}

/** At most this many contexts are kept for a problem: the plain one and a few tool sets. */
const KEPT = 16;
const contexts = new WeakMap<PlanGraph, Map<string, SearchContext>>();
const tables = new WeakMap<PlanGraph, Map<string, HandTable>>();
const levelsByPoints = new WeakMap<RoutePoints, WeakMap<PlanGraph, Map<string, Levels>>>();

const rulesKey = (rules: CountingRules): string =>
  JSON.stringify(Object.entries(rules).sort(([a], [b]) => (a < b ? -1 : 1)));

/** Keeps what was made under a key; drops the oldest past `KEPT`. */
const kept = <V>(map: Map<string, V>, key: string, make: () => V): V => {
  const old = map.get(key);
  if (old !== undefined) return old;
  const made = make();
  if (map.size >= KEPT) {
    const oldest = map.keys().next();
    if (!oldest.done) map.delete(oldest.value);
  }
  map.set(key, made);
  return made;
};

/** What do searches with these options share? */
export const searchContext = (problem: RouteProblem, options: Omit<StepSearchOptions, 'rules'>): SearchContext => {
  const graph = planGraph(problem);
  const byKey = contexts.get(graph) ?? new Map<string, SearchContext>();
  contexts.set(graph, byKey);
  const { tools, without, given: facts = [], allowDestroyed = false, allowNotShown = false } = options;
  const names = [tools ? [...tools].sort() : null, [...(without ?? [])].sort(), [...facts].sort()];
  return kept(byKey, JSON.stringify([names, allowDestroyed, allowNotShown]), () => {
    const usable = usableActions(graph, options);
    if (without) for (const [index, action] of graph.actions.entries()) if (without.has(action.id)) usable[index] = 0;
    const given = new Set(facts.flatMap((fact) => graph.factIds.get(fact) ?? []));
    return { graph, usable, given, landmarks: landmarks(graph, usable, given) };
  });
};

/** The same with some more actions left out (graph numbers); not kept. */
export const contextWithout = (context: SearchContext, actions: Iterable<number>): SearchContext => {
  const usable = context.usable.slice();
  for (const action of actions) usable[action] = 0;
  return { ...context, usable, landmarks: landmarks(context.graph, usable, context.given) };
};

const makeTable = (graph: PlanGraph, options: TableOptions, actions: readonly RouteAction[]): HandTable => {
  const { rules, keepsTime } = options;
  const vocabulary = counterVocabulary(
    actions.flatMap((action) => action.atoms),
    holdingAidsOf(graph.problem),
    rules,
  );
  return new HandTable({ actions, tools: graph.problem.tools, rules, vocabulary, keepsTime });
};

/** Which table is wanted? `actions`: the graph numbers that matter, used where the whole problem has too many names. */
export interface TableOptions {
  readonly rules: CountingRules;
  readonly keepsTime: boolean;
  readonly actions: readonly number[];
}

/**
 * Which table of the hands serves these actions? One for the whole problem where its names fit the counter's bits, and then it
 * is kept; else one for these actions alone. Throws a RangeError where even these have too many names.
 */
export const handTable = (graph: PlanGraph, options: TableOptions): HandTable => {
  const byKey = tables.get(graph) ?? new Map<string, HandTable>();
  tables.set(graph, byKey);
  const key = `${options.keepsTime}${rulesKey(options.rules)}`;
  if (byKey.has(key) || fits(graph, options)) return kept(byKey, key, () => makeTable(graph, options, graph.actions));
  const wanted = new Set(options.actions);
  const idle = graph.actions.map((action, index) => (wanted.has(index) ? action : { ...action, atoms: [] }));
  return makeTable(graph, options, idle);
};

/** Do the whole problem's tools and heated places fit the counter's bits? */
const fits = (graph: PlanGraph, { rules }: TableOptions): boolean => {
  const atoms = graph.actions.flatMap((action) => action.atoms);
  const tools = new Set(atoms.flatMap((atom) => atom.tools));
  const heats = atoms.filter((atom) => rules.reheatingOncePerPlace && atom.do === 'heat');
  const uses = new Set(heats.flatMap((atom) => ['', ...atom.tools].map((tool) => `${atom.place}/${tool}`)));
  return tools.size <= MAX_COUNTER_NAMES && uses.size <= MAX_COUNTER_NAMES;
};

/** Which levels do a problem's actions have under these points? Kept per points table. */
export const levelTable = (graph: PlanGraph, points: RoutePoints, rules: CountingRules): Levels => {
  const byGraph = levelsByPoints.get(points) ?? new WeakMap<PlanGraph, Map<string, Levels>>();
  levelsByPoints.set(points, byGraph);
  const byKey = byGraph.get(graph) ?? new Map<string, Levels>();
  byGraph.set(graph, byKey);
  return kept(byKey, rulesKey(rules), () =>
    levelsOf(graph.actions, points, { rules, holdingAids: holdingAidsOf(graph.problem) }),
  );
};
