import type { RouteAtom, RouteProblem } from '../problem/route-problem.ts';

/** What do a sequence's atoms take [integer ms], pick-ups included, and which action durations are not known? */
export interface RouteTime {
  readonly milliseconds: number;
  readonly missingAtoms: readonly number[];
}

/**
 * How long does a sequence of atoms take? Each atom's own duration, and the pick-up of every tool that is taken newly into
 * the hands; bare hands keep what is held, also across removals. An atom without a duration counts nothing and is listed.
 */
export const routeTime = (problem: Pick<RouteProblem, 'tools'>, atoms: readonly RouteAtom[]): RouteTime => {
  const pickups = new Map(problem.tools.map((tool) => [tool.id, tool.pickupMilliseconds]));
  let held: readonly string[] = [];
  let milliseconds = 0;
  const missingAtoms: number[] = [];
  for (const [index, atom] of atoms.entries()) {
    if (atom.milliseconds === undefined) missingAtoms.push(index);
    milliseconds += atom.milliseconds ?? 0;
    if (atom.tools.length === 0) continue;
    for (const tool of atom.tools) if (!held.includes(tool)) milliseconds += pickups.get(tool) ?? 0;
    held = atom.tools;
  }
  return { milliseconds, missingAtoms };
};
