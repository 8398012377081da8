import type { Fact, RouteProblem } from '../problem/route-problem.ts';
import { type FewestStepsOptions, fewestSteps } from '../search/fewest-steps.ts';
import { searchContext } from '../search/search-context.ts';
import { planGraph } from '../structure/plan-graph.ts';

/** What would the routes to all targets together save, were this fastener already released? */
export interface SharedBurden {
  readonly fastener: string;
  /** Steps saved, summed over the targets. */
  readonly steps: number;
  /** Least time saved, summed over the targets [ms]; undefined where no solver for time was given. */
  readonly milliseconds?: number;
  /** Targets whose fewest steps or least time it lowers. */
  readonly targets: readonly Fact[];
  /** False where some search met its limit, so that the saving is one of routes found, not of the best. */
  readonly proved: boolean;
}

/** What is the shared burden worked out with? */
export interface SharedBurdenOptions extends FewestStepsOptions {
  /** The least time to a target given some facts [ms], proved or not; undefined where there is no route. */
  readonly leastTime?: (
    target: Fact,
    given: readonly Fact[],
  ) => { readonly milliseconds: number; readonly proved: boolean } | undefined;
}

interface Cost {
  readonly steps: number;
  readonly milliseconds: number;
  readonly proved: boolean;
}

const costOf = (problem: RouteProblem, target: Fact, options: SharedBurdenOptions): Cost | undefined => {
  const found = fewestSteps(problem, target, options);
  if (found.kind === 'unreachable') return undefined;
  const time = options.leastTime?.(target, options.given ?? []);
  return {
    steps: found.steps,
    milliseconds: time?.milliseconds ?? 0,
    proved: found.proved && (time?.proved ?? true),
  };
};

/**
 * Fasteners whose release could matter for the target: backwards through every need and clause of what may be used, also where
 * it cannot be reached now, since a fastener taken as released may open a way.
 */
const relevantReleases = (problem: RouteProblem, target: Fact, options: SharedBurdenOptions): ReadonlySet<Fact> => {
  const { graph, usable } = searchContext(problem, options);
  const seen = new Set<number>();
  const stack = [graph.factIds.get(target) ?? -1];
  for (let fact = stack.pop(); fact !== undefined; fact = stack.pop()) {
    if (seen.has(fact)) continue;
    seen.add(fact);
    for (const action of graph.achievers[fact] ?? [])
      if (usable[action]) stack.push(...(graph.needs[action] ?? []), ...(graph.clauses[action] ?? []).flat(2));
  }
  return new Set([...seen].flatMap((fact) => graph.facts[fact] ?? []));
};

/**
 * Which fasteners burden the routes to several parts most? Each fastener in turn is taken as released from the start and the
 * fewest steps (and least time) to every target are worked out again. Fasteners that save something, those that save most
 * steps, then most time, first; ids last. A target without a route, as before or after, saves nothing. Cost: one search for
 * each fastener and target it can matter to.
 */
export const sharedBurden = (
  problem: RouteProblem,
  targets: readonly Fact[],
  options: SharedBurdenOptions,
): readonly SharedBurden[] => {
  const now = new Map(targets.map((target) => [target, costOf(problem, target, options)]));
  const relevant = new Map(targets.map((target) => [target, relevantReleases(problem, target, options)]));
  const releases = planGraph(problem).facts.filter((fact) => fact.startsWith('released/'));
  const burdens = releases.map((release) => {
    let [steps, milliseconds, proved] = [0, 0, true];
    const helped: Fact[] = [];
    for (const target of targets) {
      const before = now.get(target);
      if (!before || !relevant.get(target)?.has(release) || target === release) continue;
      const after = costOf(problem, target, { ...options, given: [...(options.given ?? []), release] });
      if (!after) continue;
      proved = proved && before.proved && after.proved;
      if (after.steps < before.steps || after.milliseconds < before.milliseconds) helped.push(target);
      steps += before.steps - after.steps;
      milliseconds += before.milliseconds - after.milliseconds;
    }
    const time = options.leastTime ? { milliseconds } : {};
    return { fastener: release.slice('released/'.length), steps, ...time, targets: helped, proved };
  });
  return burdens
    .filter((burden) => burden.targets.length > 0)
    .sort(
      (a, b) =>
        b.steps - a.steps || (b.milliseconds ?? 0) - (a.milliseconds ?? 0) || (a.fastener < b.fastener ? -1 : 1),
    );
};
