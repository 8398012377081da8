import { type RouteSource, routeProblem } from '../problem/from-record.ts';
import type { RouteAction, RouteProblem } from '../problem/route-problem.ts';
import { fewestSteps } from '../search/fewest-steps.ts';
import type { CountingRules } from '../steps/counting-rules.ts';

/** States one search may take up; an end that is not proved within it is the steps of a route there is, or a bound. */
const STATES = 10_000;

/** What a search says of one part: steps of a route found, no fewer than so many, and the route itself. */
interface Reached {
  readonly steps: number;
  readonly bound: number;
  readonly actions: readonly RouteAction[];
}

/** The planning problems of a record, with every search on them made once. */
export class Ground {
  readonly source: RouteSource;
  readonly rules: CountingRules;
  readonly pessimistic: RouteProblem;
  readonly optimistic: RouteProblem;
  private readonly free = new Map<string, RouteProblem>();
  private readonly found = new Map<RouteProblem, Map<string, Reached | undefined>>();

  constructor(source: RouteSource, rules: CountingRules) {
    this.source = source;
    this.rules = rules;
    this.pessimistic = routeProblem(source, 'pessimistic');
    this.optimistic = routeProblem(source, 'optimistic');
  }

  /** How is a part reached in a problem, in the fewest steps? Undefined where it is not. Cost: bounded by the limit of states. */
  reach(problem: RouteProblem, part: string, states = STATES): Reached | undefined {
    const known = this.found.get(problem) ?? new Map<string, Reached | undefined>();
    this.found.set(problem, known);
    if (!known.has(part)) {
      const found = fewestSteps(problem, `free/${part}`, { rules: this.rules, limits: { nodes: states } });
      known.set(part, found.kind === 'found' ? found : undefined);
    }
    return known.get(part);
  }

  /** The pessimistic problem with one thing reached as freely as nothing excludes: no trial of it can show more. */
  freely(subject: string): RouteProblem {
    const known = this.free.get(subject);
    if (known) return known;
    const other = this.pessimistic.actions.filter((action) => action.subject !== subject);
    const own = this.optimistic.actions.filter((action) => action.subject === subject);
    const made = { ...this.pessimistic, actions: [...other, ...own] };
    this.free.set(subject, made);
    return made;
  }
}
