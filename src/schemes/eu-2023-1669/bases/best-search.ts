import type { RouteSource } from '#routes/problem/from-record';
import type { Fact, RouteAction, RouteAtom, RouteProblem } from '#routes/problem/route-problem';
import { type BestFound, bestFound } from '#routes/search/best-found';
import { dominators } from '#routes/search/dominators';
import { type FewestSteps, fewestSteps } from '#routes/search/fewest-steps';
import type { SearchLimits } from '#routes/search/route-search';
import type { Unreachable } from '#routes/search/unreachable';
import type { CountingRules } from '#routes/steps/counting-rules';
import type { RoutePoints } from '#routes/steps/stretch';
import { FASTENER_POINTS, TOOL_POINTS } from '../bands.ts';
import type { FastenerClass, ToolClass } from '../input.ts';
import { countingRulesFor } from '../readings.ts';
import { fastenerRange, toolRange } from './class-ranges.ts';
import type { Judging } from './judge-sequence.ts';

/** The problems of one record that best-found routes are sought in. */
export interface RouteProblems {
  readonly pessimistic: RouteProblem;
  readonly optimistic: RouteProblem;
}

/** Best found by what is shown, and the fewest steps that nothing excludes. */
export interface BestSearch {
  readonly shown: BestFound | Unreachable;
  readonly possible: FewestSteps | Unreachable;
}

/** States a search for an optimistic end may take up before its bound is used: a bound is all that such an end needs. */
const OPTIMISTIC_LIMITS = { nodes: 50_000 };

/** Points below the scale: so low that any route within it is preferred among routes of as many steps. */
const BELOW = -1000;

const pointsOfFastener = (name: FastenerClass): number => (name === 'below-scale' ? BELOW : FASTENER_POINTS[name]);
const pointsOfTool = (name: ToolClass): number => (name === 'below-scale' ? BELOW : TOOL_POINTS[name]);

const kept = <K, V>(map: Map<K, V>, key: K, make: () => V): V => {
  const old = map.get(key);
  if (old !== undefined) return old;
  const made = make();
  map.set(key, made);
  return made;
};

const pointTables = new WeakMap<RouteSource, Map<string, RoutePoints>>();

/** Which points does the scheme give for one part, every open class at its worst or at its best? Kept for a record and readings. */
export const pointsFor = (judging: Judging, end: 'worst' | 'best'): RoutePoints => {
  const { source, part, readings } = judging;
  const tables = pointTables.get(source) ?? new Map<string, RoutePoints>();
  pointTables.set(source, tables);
  const key = [part, end, readings['holding-aids'], readings['tool-in-several-classes']].join('\n');
  return kept(tables, key, () => makePoints(judging, end));
};

const makePoints = ({ source, part, readings }: Judging, end: 'worst' | 'best'): RoutePoints => {
  const byTool = new Map<string, number>();
  const byAction = new Map<string, number>();
  const ofRelease = (action: RouteAction): number =>
    pointsOfFastener(fastenerRange(source, { part, fastener: action.subject, leaves: action.leaves })[end]);
  return {
    fastener: (action) =>
      action.kind === 'release' ? kept(byAction, `${action.id}\n${action.leaves}`, () => ofRelease(action)) : 5,
    tool: (tool) => kept(byTool, tool, () => pointsOfTool(toolRange(source, { part, tool }, readings)[end])),
  };
};

/** What of the counting rules can matter to a problem at all? Worked out once. */
interface Touched {
  readonly items: boolean;
  readonly unplugs: boolean;
  readonly cleansAfter: boolean;
  readonly reheats: boolean;
  readonly aids: boolean;
  readonly tools: boolean;
  readonly handsToo: boolean;
}

const touches = new WeakMap<RouteProblem, Touched>();

const isRepeated = (names: readonly string[]): boolean => new Set(names).size < names.length;

const touchedOf = (problem: RouteProblem): Touched => {
  const old = touches.get(problem);
  if (old) return old;
  const atoms: readonly RouteAtom[] = problem.actions.flatMap((action) => action.atoms);
  const aids = new Set(problem.tools.filter((tool) => tool.holdingAid).map((tool) => tool.id));
  const heated = atoms.flatMap((atom) => (atom.do === 'heat' && atom.place !== undefined ? [atom.place] : []));
  const made: Touched = {
    items: atoms.some((atom) => atom.releases?.asItems),
    unplugs: atoms.some((atom) => atom.do === 'unplug'),
    cleansAfter: atoms.some((atom) => atom.do === 'clean' && atom.afterRelease === true),
    reheats: isRepeated(heated),
    aids: atoms.some((atom) => atom.tools.some((tool) => aids.has(tool))),
    tools: atoms.some((atom) => atom.tools.length > 0),
    handsToo: atoms.some((atom) => atom.tools.every((tool) => aids.has(tool))),
  };
  touches.set(problem, made);
  return made;
};

/** Which of the counting rules can move a count in this problem? Those that nothing in it touches are put back to their default. */
export const rulesThatMatter = (problem: RouteProblem, rules: CountingRules): CountingRules => {
  const touched = touchedOf(problem);
  return {
    fastenersAsParts: rules.fastenersAsParts && touched.items,
    unpluggingBySelf: rules.unpluggingBySelf && touched.unplugs,
    cleaningAfterRelease: rules.cleaningAfterRelease && touched.cleansAfter,
    reheatingOncePerPlace: rules.reheatingOncePerPlace && touched.reheats,
    holdingAidsAreTools: rules.holdingAidsAreTools && touched.aids,
    firstPickUpIsChange: rules.firstPickUpIsChange && touched.tools,
    bareHandsIsChange: rules.bareHandsIsChange && touched.tools && touched.handsToo,
  };
};

const searches = new WeakMap<RouteProblem, Map<string, unknown>>();

const keptSearch = <V>(problem: RouteProblem, key: string, make: () => V): V => {
  const byKey = searches.get(problem) ?? new Map<string, unknown>();
  searches.set(problem, byKey);
  return kept(byKey, key, make) as V;
};

const rulesKey = (rules: CountingRules): string => Object.values(rules).map(Number).join('');

/** All points that a problem's actions and tools have, as one text: two tables with the same text are the same table. */
const pointsKey = (problem: RouteProblem, points: RoutePoints): string =>
  [
    ...problem.actions.flatMap((action) => (action.kind === 'release' ? [points.fastener(action)] : [])),
    '/',
    ...problem.tools.map(({ id }) => points.tool(id)),
  ].join(',');

/**
 * Release actions of which nobody looked in what class they leave their fastener: a look may show that they destroy it. Those
 * that no route avoids are left out: were one to destroy its fastener, there would be no route and so no figure on the scale.
 */
const doubtfulWays = ({ pessimistic, optimistic }: RouteProblems, target: Fact): ReadonlySet<string> => {
  const doubtful = pessimistic.actions.filter(isDoubtful);
  if (doubtful.length === 0) return new Set();
  const onEvery = new Set(dominators(optimistic, target, {})?.actions ?? []);
  return new Set(doubtful.map(({ id }) => id).filter((id) => !onEvery.has(id)));
};

const isDoubtful = ({ kind, leaves }: RouteAction): boolean => kind === 'release' && leaves === undefined;

/** Fasteners on every route whose only way may turn out to destroy them: then there is no route at all. */
export const doubtfulOnEvery = ({ optimistic }: RouteProblems, part: string): readonly RouteAction[] => {
  const doubtful = optimistic.actions.filter(isDoubtful);
  if (doubtful.length === 0) return [];
  const onEvery = new Set(dominators(optimistic, `free/${part}`, {})?.actions ?? []);
  return doubtful.filter(({ id }) => onEvery.has(id));
};

/** The best-found route to a part by what is shown, each open class at one end. Searched once for each set of rules and points that can matter. */
export const bestShown = (
  problems: RouteProblems,
  judging: Judging,
  end: 'worst' | 'best' = 'worst',
): BestFound | Unreachable => {
  const problem = problems.pessimistic;
  const rules = rulesThatMatter(problem, countingRulesFor(judging.readings));
  const points = pointsFor(judging, end);
  const target = `free/${judging.part}` as const;
  const key = ['best', target, rulesKey(rules), pointsKey(problem, points)].join('\n');
  return keptSearch(problem, key, () => bestFound(problem, target, { rules, points }));
};

/** The same with only such ways as are known to leave their fastener whole: that route stays, whatever a look at the others shows. */
export const bestSure = (problems: RouteProblems, judging: Judging): BestFound | Unreachable => {
  const problem = problems.pessimistic;
  const target = `free/${judging.part}` as const;
  const without = doubtfulWays(problems, target);
  if (without.size === 0) return bestShown(problems, judging);
  const rules = rulesThatMatter(problem, countingRulesFor(judging.readings));
  const points = pointsFor(judging, 'worst');
  // Which ways are left out hangs on what is not excluded as well, and so on more than this problem.
  const key = ['sure', target, rulesKey(rules), pointsKey(problem, points), ...[...without].sort()].join('\n');
  return keptSearch(problem, key, () => bestFound(problem, target, { rules, points, without }));
};

/** The fewest steps that nothing excludes, to several facts at once; a bound where the search would be long. */
export const fewestPossible = (
  problems: RouteProblems,
  targets: readonly Fact[],
  { readings, limits = OPTIMISTIC_LIMITS }: Pick<Judging, 'readings'> & { readonly limits?: SearchLimits },
): FewestSteps | Unreachable => {
  const problem = problems.optimistic;
  const rules = rulesThatMatter(problem, countingRulesFor(readings));
  const key = ['fewest', ...targets, rulesKey(rules), limits.nodes].join('\n');
  return keptSearch(problem, key, () => fewestSteps(problem, targets, { rules, limits }));
};

/** Among the routes of the fewest steps that nothing excludes, one with the highest points. */
const bestPossible = (problems: RouteProblems, judging: Judging): BestFound | Unreachable => {
  const problem = problems.optimistic;
  const rules = rulesThatMatter(problem, countingRulesFor(judging.readings));
  const points = pointsFor(judging, 'best');
  const target = `free/${judging.part}` as const;
  const key = ['highest', target, rulesKey(rules), pointsKey(problem, points)].join('\n');
  return keptSearch(problem, key, () => bestFound(problem, target, { rules, points, limits: OPTIMISTIC_LIMITS }));
};

/** The highest sum of fastener and tool points on a route of the fewest steps that nothing excludes; 10 where not proved. */
export const highestPossible = (problems: RouteProblems, judging: Judging): number => {
  const found = bestPossible(problems, judging);
  return found.kind === 'found' && found.proved ? found.points.fastener + found.points.tool : 10;
};

/** The actions of such a route; none where there is no route at all. */
export const routeOfHighest = (problems: RouteProblems, judging: Judging): readonly RouteAction[] => {
  const found = bestPossible(problems, judging);
  return found.kind === 'found' ? found.actions : [];
};

/** Best found for one part: by what is shown, and the fewest steps by what nothing excludes. */
export const searchBest = (problems: RouteProblems, judging: Judging): BestSearch => ({
  shown: bestShown(problems, judging),
  possible: fewestPossible(problems, [`free/${judging.part}`], judging),
});

/** Best found for one part with the named tools only, by what is shown. */
export const searchWithTools = (
  problems: RouteProblems,
  judging: Judging,
  tools: ReadonlySet<string>,
): BestFound | Unreachable =>
  bestFound(problems.pessimistic, `free/${judging.part}`, {
    rules: countingRulesFor(judging.readings),
    points: pointsFor(judging, 'worst'),
    tools,
  });
