import type { RouteProblem } from './route-problem.ts';

/** Problems remembered: both kinds of reachability of a few records at work side by side. */
const MOST = 8;

const known = new Map<string, RouteProblem>();

/**
 * Is this a problem that was met before? Then the very object is given back, and with it everything that was found on it:
 * searches are remembered by problem. A mark, a note or a hold changes a record and none of its routes. Compared by content.
 */
export const knownProblem = (problem: RouteProblem): RouteProblem => {
  const content = JSON.stringify(problem);
  const old = known.get(content) ?? problem;
  known.delete(content);
  known.set(content, old);
  const oldest = known.keys().next().value;
  if (known.size > MOST && oldest !== undefined) known.delete(oldest);
  return old;
};
