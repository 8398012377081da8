import type { Fact } from '../problem/route-problem.ts';

/** Why does one fact bar the way? What the problem says, or what keeps its ways from being taken. */
export interface Barrier {
  readonly fact: Fact;
  readonly why: 'stated' | 'no-action' | 'not-shown' | 'destroys' | 'tools' | 'circle';
  /** In words, without the part or fastener concerned and its ways. */
  readonly reason: string;
  /** Action ids of the ways that there are, sorted. */
  readonly ways: readonly string[];
}

/** Which barriers have to be lifted at the least? */
export interface Blocking {
  /** Each bars every way by itself: with all others lifted there is still no route. Sorted by fact. */
  readonly every: readonly Barrier[];
  /** A smallest set that opens a route once `every` is lifted; of several as small the first by fact. Empty where none is needed. */
  readonly besides: readonly Barrier[];
}

/** Sets that are tried for a smallest one before the rest is thinned out instead. */
const MOST_SETS = 2000;

/**
 * Which barriers block by themselves, and which smallest set of the others opens a route with them lifted? `opens` says whether
 * there is a route with these lifted; all of them together open one. Past 2,000 sets `besides` is one from which none can be left
 * out, which need not be the smallest. Cost: one test a barrier and a set.
 */
export const blockingOf = (barriers: readonly Barrier[], opens: (lifted: readonly Barrier[]) => boolean): Blocking => {
  const every = barriers.filter((one) => !opens(barriers.filter((other) => other !== one)));
  if (opens(every)) return { every, besides: [] };
  const others = barriers.filter((one) => !every.includes(one));
  let tried = 0;
  for (let size = 1; size <= others.length; size++)
    for (const set of subsets(others, size)) {
      if (opens([...every, ...set])) return { every, besides: set };
      if (++tried >= MOST_SETS) return { every, besides: thinned(others, (rest) => opens([...every, ...rest])) };
    }
  return { every, besides: others };
};

/** All subsets of a given size, in order. */
function* subsets(items: readonly Barrier[], size: number, from = 0): Generator<Barrier[]> {
  if (size === 0) {
    yield [];
    return;
  }
  for (let at = from; at + size <= items.length; at++)
    for (const rest of subsets(items, size - 1, at + 1)) yield [...items.slice(at, at + 1), ...rest];
}

/** One set that opens and from which none can be left out. */
const thinned = (all: readonly Barrier[], opens: (set: readonly Barrier[]) => boolean): readonly Barrier[] =>
  all.reduceRight<readonly Barrier[]>((kept, one) => {
    const without = kept.filter((other) => other !== one);
    return opens(without) ? without : kept;
  }, all);
