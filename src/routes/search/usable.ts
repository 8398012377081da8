import type { RouteAction } from '../problem/route-problem.ts';
import type { PlanGraph } from '../structure/plan-graph.ts';

/** Which actions may a search take? */
export interface UsableOptions {
  /** Only with these tools; undefined: with any. */
  readonly tools?: ReadonlySet<string>;
  /** Also ways that were never shown to work. */
  readonly allowNotShown?: boolean;
  /** Also ways that destroy their fastener. */
  readonly allowDestroyed?: boolean;
}

/** May this action be taken, tools aside? A way counts only if it was shown, and never if it destroys, unless asked for. */
export const isAdmitted = (action: RouteAction, options: UsableOptions): boolean =>
  (options.allowNotShown === true || action.shown !== undefined) &&
  (options.allowDestroyed === true || action.leaves !== 'destroyed');

const isWithin = (action: RouteAction, tools: ReadonlySet<string>): boolean =>
  action.atoms.every((atom) => atom.tools.every((tool) => tools.has(tool)));

/** Which actions of a problem may be taken? A byte an action. */
export const usableActions = (graph: PlanGraph, options: UsableOptions): Uint8Array =>
  Uint8Array.from(graph.actions, (action) =>
    isAdmitted(action, options) && (options.tools === undefined || isWithin(action, options.tools)) ? 1 : 0,
  );
