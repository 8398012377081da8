import type { RouteAction, RouteTool } from '#routes/problem/route-problem';

/** What does an action cost by itself, and which tools does it want in hand first and leave in hand? */
export interface ActionWork {
  /** Its atoms, and the tool changes inside it once its first tools are in hand [ms]. */
  readonly milliseconds: number;
  /** Tool ids, sorted; undefined when it is done with bare hands, and then whatever is held stays. */
  readonly firstTools: readonly string[] | undefined;
  readonly lastTools: readonly string[] | undefined;
  /** False when the duration of an atom is not known; that atom then counts 0 and the sum is a lower value. */
  readonly isTimed: boolean;
}

/** How long does it take up the tools of `wanted` that are not in `held` [ms]? Throws a RangeError for a tool the problem lacks. */
export const pickupMilliseconds = (
  held: readonly string[],
  wanted: readonly string[],
  tools: ReadonlyMap<string, RouteTool>,
): number => {
  let total = 0;
  for (const id of wanted) {
    if (held.includes(id)) continue;
    const tool = tools.get(id);
    if (!tool) throw new RangeError(`the tool ${JSON.stringify(id)} is used but not listed`);
    total += tool.pickupMilliseconds;
  }
  return total;
};

/**
 * What does an action cost by itself? Tools in hand at once are one set: going over to another set takes up the tools
 * that are new in it and puts the others down; bare-handed atoms change nothing in hand.
 */
export const actionWork = (action: RouteAction, tools: ReadonlyMap<string, RouteTool>): ActionWork => {
  let milliseconds = 0;
  let firstTools: readonly string[] | undefined;
  let lastTools: readonly string[] | undefined;
  let isTimed = true;
  for (const atom of action.atoms) {
    milliseconds += atom.milliseconds ?? 0;
    if (atom.milliseconds === undefined) isTimed = false;
    if (atom.tools.length === 0) continue;
    if (lastTools) milliseconds += pickupMilliseconds(lastTools, atom.tools, tools);
    firstTools ??= atom.tools;
    lastTools = atom.tools;
  }
  return { milliseconds, firstTools, lastTools, isTimed };
};
