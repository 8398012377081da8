import type { Fact } from '../problem/route-problem.ts';
import { hasNode } from '../structure/landmarks.ts';
import { earlyActions } from './early-actions.ts';
import type { HandTable } from './hand-table.ts';
import { type Levels, pointsOfLevel } from './levels.ts';
import { type LowerBounds, lowerBounds } from './lower-bounds.ts';
import { suffices, withoutNeedless } from './needless.ts';
import type { RouteFigures } from './route-figures.ts';
import { RouteSearch, type RouteSearchResult } from './route-search.ts';
import { contextWithout, type SearchContext } from './search-context.ts';
import { isTimeUp, type SearchLimits } from './search-limits.ts';
import { withSuffixes } from './suffix-bounds.ts';
import { cutTarget, type TargetProblem } from './target-problem.ts';

/** Between what does the search for the best route without a needless action choose? */
export interface MinimalSearch {
  readonly targets: readonly Fact[];
  readonly hands: HandTable;
  /** The table that forgets times, for questions of steps alone. */
  readonly stepHands: HandTable;
  readonly levels: Levels;
  readonly limits: SearchLimits;
  /** The fewest steps, proved before. */
  readonly steps: number;
  /** What a sequence of actions (graph numbers) counts, scores and takes, by definition. */
  readonly figures: (actions: readonly number[]) => RouteFigures;
  /** The goal as cut and bounded for the fewest steps, nothing left out. */
  readonly prepared: { readonly target: TargetProblem; readonly bounds: LowerBounds };
}

/** A route by graph numbers, with its figures; `proved` where no route without needless actions is better. */
export interface MinimalRoute {
  readonly actions: readonly number[];
  readonly level: number;
  readonly milliseconds: number;
  readonly proved: boolean;
  readonly expanded: number;
}

interface Candidate {
  readonly context: SearchContext;
  readonly banned: readonly number[];
  readonly actions: readonly number[];
  readonly result: RouteSearchResult;
}

/** The actions of a target problem that give a fact, by graph numbers. */
export const localAchievers = (target: TargetProblem): ((fact: number) => readonly number[]) => {
  const within = new Set(target.actions);
  const known = new Map<number, readonly number[]>();
  return (fact) => {
    const old = known.get(fact);
    if (old) return old;
    const list = (target.graph.achievers[fact] ?? []).filter((action) => within.has(action));
    known.set(fact, list);
    return list;
  };
};

/** What does one search of one goal need? `steps` as in {@link RouteSearchOptions}. */
export interface TargetSearch {
  readonly target: TargetProblem;
  readonly hands: HandTable;
  readonly levels: Levels;
  readonly limits: SearchLimits;
  readonly order: 'steps' | 'best';
  readonly steps?: number;
  readonly bounds: LowerBounds;
}

/** What must still be paid on the way to a goal? The same bounds serve every order of search under the same rules. */
export const boundsOf = (
  { landmarks }: SearchContext,
  search: Pick<TargetSearch, 'target' | 'hands' | 'levels'>,
): LowerBounds =>
  lowerBounds(search.target, search.levels, { ...search, landmarks, achievers: localAchievers(search.target) });

/** States that an easy search takes up at most; a harder one is begun again with stronger bounds. */
const EASY = 80;
/** States that each smaller search for a stronger bound takes up at most. */
const SUFFIX_NODES = 400;

/** What one search found, and the bounds it ended with, which may serve another order of search. */
interface TargetResult extends RouteSearchResult {
  readonly bounds: LowerBounds;
}

/** Runs one search on what is left of a problem for one goal. Bounds that are strong already are not worked out again. */
export const searchTarget = ({ landmarks }: SearchContext, search: TargetSearch): TargetResult => {
  const { target, hands, bounds } = search;
  const early = earlyActions(target, search);
  const options = { ...search, early };
  if (bounds.suffixes.length > 0) return { ...new RouteSearch(options).run(), bounds };
  const easy = new RouteSearch({
    ...options,
    limits: { ...search.limits, nodes: Math.min(EASY, search.limits.nodes) },
  }).run();
  if (easy.outcome !== 'limit' || search.limits.nodes <= EASY) return { ...easy, bounds };
  const strong = hands.forgets ? withSuffixes({ search: options, landmarks, nodes: SUFFIX_NODES }) : bounds;
  const result = new RouteSearch({ ...options, bounds: strong }).run();
  return { ...result, expanded: result.expanded + easy.expanded, bounds: strong };
};

/** Is every action of the route on every route there is? Then none is needless, and no further look is necessary. */
const isAllMandatory = (context: SearchContext, targets: readonly number[], actions: readonly number[]): boolean => {
  const base = context.graph.facts.length;
  return actions.every((action) =>
    targets.some((target) => {
      const label = context.landmarks.ofFact(target);
      return label !== undefined && hasNode(label, base + action);
    }),
  );
};

const compare = (levels: Levels, a: RouteSearchResult, b: RouteSearchResult): number =>
  (levels.rank[a.level] ?? 0) - (levels.rank[b.level] ?? 0) || a.milliseconds - b.milliseconds || a.level - b.level;

/**
 * Which route has the highest points, then the least time, among all routes of the fewest steps in which no action is needless:
 * that is, no smaller set of its actions reaches the targets in as few steps?
 *
 * The search itself also sees routes with a needless action; those can only be better. Where its best route has one, every
 * route without lacks some action of it, so the search is repeated without each in turn, the best first, until the best that
 * is left has no needless action. Undefined: a limit was met before any route.
 */
export const minimalRoute = (context: SearchContext, search: MinimalSearch): MinimalRoute | undefined => {
  const queue: Candidate[] = [];
  const seen = new Set<string>(['']);
  let expanded = 0;
  let isCut = false;
  const look = (from: SearchContext, banned: readonly number[]): void => {
    const limits = { ...search.limits, nodes: Math.max(0, search.limits.nodes - expanded) };
    const target =
      banned.length === 0 ? search.prepared.target : cutTarget(from.graph, { ...from, targets: search.targets });
    if (!target) return;
    const bounds = banned.length === 0 ? search.prepared.bounds : boundsOf(from, { ...search, target });
    const result = searchTarget(from, { ...search, target, bounds, limits, order: 'best' });
    expanded += result.expanded;
    if (result.outcome === 'limit') isCut = true;
    if (result.outcome !== 'found') return;
    queue.push({ context: from, banned, actions: result.actions.map((action) => target.actions[action] ?? 0), result });
    queue.sort((a, b) => compare(search.levels, a.result, b.result));
  };
  look(context, []);
  for (let best = queue.shift(); best; best = queue.shift()) {
    const needed = neededRoute(best, search);
    expanded += needed.expanded;
    isCut ||= needed.isCut;
    if (needed.route) return { ...needed.route, proved: !isCut, expanded };
    if (expanded >= search.limits.nodes || isTimeUp(search.limits)) return undefined;
    for (const action of best.actions) {
      const banned = [...best.banned, action].sort((a, b) => a - b);
      if (seen.has(banned.join())) continue;
      seen.add(banned.join());
      look(contextWithout(context, banned), banned);
    }
  }
  return undefined;
};

interface NeededRoute {
  readonly route?: Pick<MinimalRoute, 'actions' | 'level' | 'milliseconds'>;
  readonly expanded: number;
  /** Whether something is needless could not be settled within the limits. */
  readonly isCut: boolean;
}

/** The candidate without needless actions, where that changes none of its figures; no route where it does. */
const neededRoute = ({ context, actions, result }: Candidate, search: MinimalSearch): NeededRoute => {
  const { level, milliseconds } = result;
  const targets = search.targets.flatMap((target) => context.graph.factIds.get(target) ?? []);
  const sure = { route: { actions, level, milliseconds }, expanded: 0, isCut: false };
  if (isAllMandatory(context, targets, actions)) return sure;
  const check = { graph: context.graph, given: context.given, targets };
  const kept = withoutNeedless(check, actions);
  if (kept.length < actions.length && !hasFigures(kept, { level, milliseconds }, search))
    return { expanded: 0, isCut: false };
  let expanded = 0;
  let isCut = false;
  for (const dropped of kept) {
    const rest = kept.filter((action) => action !== dropped);
    if (!suffices(check, rest)) continue;
    const few = stepsWith(context, rest, search);
    expanded += few.expanded;
    isCut ||= few.outcome === 'limit';
    if (few.outcome === 'found' && few.steps <= search.steps) return { expanded, isCut };
  }
  return { route: { actions: kept, level, milliseconds }, expanded, isCut };
};

const hasFigures = (
  actions: readonly number[],
  { level, milliseconds }: Pick<MinimalRoute, 'level' | 'milliseconds'>,
  { figures, levels }: MinimalSearch,
): boolean => {
  const now = figures(actions);
  const points = pointsOfLevel(levels, level);
  const isSame = now.points.fastener === points.fastener && now.points.tool === points.tool;
  return isSame && now.milliseconds === milliseconds;
};

/** In how few steps do these actions alone reach the targets? */
const stepsWith = (
  context: SearchContext,
  actions: readonly number[],
  search: MinimalSearch,
): Pick<RouteSearchResult, 'outcome' | 'steps' | 'expanded'> => {
  const wanted = new Set(actions);
  const others = context.graph.actions.flatMap((_, action) => (wanted.has(action) ? [] : [action]));
  const from = contextWithout(context, others);
  const target = cutTarget(from.graph, { ...from, targets: search.targets });
  if (!target) return { outcome: 'none', steps: Number.POSITIVE_INFINITY, expanded: 0 };
  const { levels, limits, stepHands: hands } = search;
  const bounds = boundsOf(from, { target, hands, levels });
  return searchTarget(from, { target, hands, levels, limits, bounds, order: 'steps' });
};
