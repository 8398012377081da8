import type { Fact, RouteAction, RouteProblem } from '../problem/route-problem.ts';
import type { CountingRules } from './counting-rules.ts';
import { isUncounted } from './step-counter.ts';

/** Which points does the scheme give? Integers, higher is better; below the scale is a large negative number. */
export interface RoutePoints {
  /** Points of the fastener class that this action leaves or meets; {@link NONE_USED} where it releases none. */
  readonly fastener: (action: RouteAction) => number;
  readonly tool: (toolId: string) => number;
}

/** Points where no fastener, or no tool, was met (Regulation (EU) 2023/1669, Annex IV point 5: the highest level). */
export const NONE_USED = 5;

/** Which part does a fact speak of? Undefined for a fastener. */
export const partOfFact = (fact: Fact): string | undefined =>
  fact.startsWith('released/') ? undefined : fact.slice(fact.indexOf('/') + 1);

/**
 * Which tool points does one action have by itself? The worst over the tools of its counted atoms; holding aids count only
 * where the rules make them tools; {@link NONE_USED} for bare hands.
 */
export const actionToolPoints = (
  action: RouteAction,
  points: RoutePoints,
  { rules, holdingAids }: { readonly rules: CountingRules; readonly holdingAids: ReadonlySet<string> },
): number => {
  let worst = NONE_USED;
  for (const atom of action.atoms) {
    if (isUncounted(atom, rules)) continue;
    for (const tool of atom.tools)
      if (rules.holdingAidsAreTools || !holdingAids.has(tool)) worst = Math.min(worst, points.tool(tool));
  }
  return worst;
};

/** Which tools of a problem only hold? */
export const holdingAidsOf = (problem: RouteProblem): ReadonlySet<string> =>
  new Set(problem.tools.filter((tool) => tool.holdingAid).map((tool) => tool.id));

/**
 * Where does the stretch that fastener and tool points look at begin? Index into the route: after the last action before the
 * final one that newly set aside or freed a priority part other than the targets' own (Regulation (EU) 2023/1669, Annex IV
 * point 5: the stretch since the previous priority part in the sequence was removed). The action that reaches the target
 * begins no stretch, also where another priority part leaves with it.
 */
export const stretchStart = (
  problem: RouteProblem,
  route: readonly RouteAction[],
  { targets, given = [] }: { readonly targets: readonly Fact[]; readonly given?: readonly Fact[] },
): number => {
  const own = new Set(targets.map(partOfFact));
  const others = new Set(problem.priorityParts.filter((part) => !own.has(part)));
  const facts = new Set<Fact>(given);
  let start = 0;
  for (const [index, action] of route.entries()) {
    const resets = action.gives.some((fact) => !facts.has(fact) && others.has(partOfFact(fact) ?? ''));
    if (resets && index < route.length - 1) start = index + 1;
    for (const fact of action.gives) facts.add(fact);
  }
  return start;
};

/** Which fastener and tool points has a route: the worst of each over the stretch that begins at `from`? */
export const stretchPoints = (
  stretch: readonly RouteAction[],
  points: RoutePoints,
  hands: { readonly rules: CountingRules; readonly holdingAids: ReadonlySet<string> },
): { readonly fastener: number; readonly tool: number } => ({
  fastener: Math.min(NONE_USED, ...stretch.map(points.fastener)),
  tool: Math.min(NONE_USED, ...stretch.map((action) => actionToolPoints(action, points, hands))),
});
