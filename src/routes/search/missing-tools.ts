import type { Fact } from '../problem/route-problem.ts';
import type { PlanGraph } from '../structure/plan-graph.ts';
import { reachable } from '../structure/reach.ts';
import type { StepSearchOptions } from './search-context.ts';
import { usableActions } from './usable.ts';

/** The most tools that are tried together as an addition. */
const MOST_ADDED_TOOLS = 4;

/** All subsets of a given size, in order. */
function* subsets(items: readonly string[], size: number, from = 0): Generator<string[]> {
  if (size === 0) {
    yield [];
    return;
  }
  for (let at = from; at + size <= items.length; at++)
    for (const rest of subsets(items, size - 1, at + 1)) yield [items[at] ?? '', ...rest];
}

/**
 * Which smallest sets of tools, added to those allowed, would open a route to all targets? Every set of the smallest size that
 * does, tool ids sorted; none where even all tools of the problem would not, or more than four are needed.
 * Exact by trying sets in order of size. Cost: one reachability test a set.
 */
export const missingTools = (
  graph: PlanGraph,
  targets: readonly Fact[],
  options: StepSearchOptions,
): readonly (readonly string[])[] => {
  const allowed = options.tools ?? new Set<string>();
  const ids = targets.map((target) => graph.factIds.get(target) ?? -1);
  const given = (options.given ?? []).flatMap((fact) => graph.factIds.get(fact) ?? []);
  const opens = (added: readonly string[]): boolean => {
    const usable = usableActions(graph, { ...options, tools: new Set([...allowed, ...added]) });
    const { facts } = reachable(graph, usable, given);
    return ids.every((id) => facts[id] === 1);
  };
  const all = graph.actions.flatMap((action) => action.atoms.flatMap((atom) => atom.tools));
  const others = [...new Set(all)].filter((tool) => !allowed.has(tool)).sort();
  if (!opens(others)) return [];
  const needed = others.filter((tool) => !opens(others.filter((other) => other !== tool)));
  const free = others.filter((tool) => !needed.includes(tool));
  for (let size = needed.length; size <= Math.max(needed.length, MOST_ADDED_TOOLS); size++) {
    const found: string[][] = [];
    for (const more of subsets(free, size - needed.length)) {
      const set = [...needed, ...more].sort();
      if (opens(set)) found.push(set);
    }
    if (found.length > 0) return found;
  }
  return [];
};
