import type { Action } from '#record/schema/basics';

/**
 * Which fact of the device does a planner reason about? `released/<fastener>`, `off/<part>` (aside or free) or
 * `free/<part>` (alone). Facts only ever become true on the way off.
 */
export type Fact = `released/${string}` | `off/${string}` | `free/${string}`;

/** One atom of bench work inside an action, as the step counter and the clock see it. */
export interface RouteAtom {
  readonly do: Action;
  /** Tool ids in use at once, sorted, without repeats; empty is bare hands. */
  readonly tools: readonly string[];
  /** Mean duration without taking up the tool [integer ms]; undefined where neither a measured session nor an estimate gives one. */
  readonly milliseconds?: number;
  readonly place?: string;
  /** Done after the fastener has let go, as cleaning residue is. */
  readonly afterRelease?: boolean;
  /** The fastener this atom releases, how many pieces, and whether the pieces come away as items (screws, strips). */
  readonly releases?: { readonly fastener: string; readonly count: number; readonly asItems: boolean };
  /** The part this atom removes, and what it becomes. */
  readonly removes?: { readonly part: string; readonly becomes: 'aside' | 'free' };
  readonly remote?: 'notification' | 'authorisation';
}

/** What reuse class does a way leave its fastener in? `undefined` is not known. */
export type ReuseClass = 'reusable' | 'resupplied' | 'removable' | 'destroyed';

/** How likely is a way to work or to damage, a try? Intervals; equal ends where the odds are given exactly. */
export interface WayOdds {
  readonly success: { readonly low: number; readonly mean: number; readonly high: number };
  readonly damage: { readonly low: number; readonly mean: number; readonly high: number };
  readonly tries: number;
  readonly source: string;
}

/**
 * One thing a planner may do: release a fastener by one of its ways, lift a part away, or lay it aside on its cable.
 * Heat and solvent do not last, so they stand among the atoms of the action they prepare.
 */
export interface RouteAction {
  /** `release/<fastener>/<way>`, `lift/<part>` or `fold/<part>`. */
  readonly id: string;
  readonly kind: 'release' | 'lift' | 'fold';
  readonly subject: string;
  readonly way?: string;
  readonly atoms: readonly RouteAtom[];
  /** Facts that must all hold before. */
  readonly needs: readonly Fact[];
  /** Clauses that must each hold before: a clause is a list of alternatives, an alternative a list of facts that hold together. */
  readonly anyOf: readonly (readonly (readonly Fact[])[])[];
  readonly gives: readonly Fact[];
  readonly leaves?: ReuseClass;
  readonly odds?: WayOdds;
  /** How the action was shown to work; undefined when it never was, and then it stands in no best-found route. */
  readonly shown?: 'bench' | 'procedure' | 'sight';
}

/** A tool as planners see it: what taking it up costs [integer ms], and whether it only holds (fixture, magnifier, glove). */
export interface RouteTool {
  readonly id: string;
  readonly pickupMilliseconds: number;
  readonly holdingAid: boolean;
}

/** Which question about reachability does a problem answer: only what trials or sight prove, or all they do not exclude? */
export type Reach = 'pessimistic' | 'optimistic';

/** A device ready for planning: every action that may be taken, from the complete product. */
export interface RouteProblem {
  readonly reach: Reach;
  readonly tools: readonly RouteTool[];
  readonly actions: readonly RouteAction[];
  /** Parts that the law weighs; setting one aside or freeing it begins a new stretch for fastener and tool points. */
  readonly priorityParts: readonly string[];
  /** Why a fact can't be reached at all, where it can't: fastener or part id → what is missing. */
  readonly unreachable: Readonly<Record<string, string>>;
}
