import type { Belief } from './belief-graph.ts';
import { type BenchSetup, never } from './bench-setup.ts';

/**
 * How many things that are asked for were not tried of a part yet: hosts that had no foreign piece, where there is one to try, and classes
 * of donors of which none was seen?
 */
export const untriedCount = (
  { problem, parts }: BenchSetup,
  part: number,
  { triedIn, triedPieces }: Belief,
): number => {
  const { pieces, donorClasses } = parts[part] ?? never();
  const hosts = pieces.length > 1 ? problem.hosts.filter(({ id }) => !triedIn.includes(id)).length : 0;
  return hosts + donorClasses.filter((keys) => !keys.some((key) => triedPieces.includes(key))).length;
};

/** Is a part known, and everything tried that is asked for? */
export const isDone = (setup: BenchSetup, part: number, belief: Belief): boolean =>
  belief.standing.length <= 1 && untriedCount(setup, part, belief) === 0;
