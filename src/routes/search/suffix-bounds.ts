import { hasNode, type Landmarks } from '../structure/landmarks.ts';
import { type LowerBounds, MOST_ENTRIES, type Suffix } from './lower-bounds.ts';
import { RouteSearch, type RouteSearchOptions } from './route-search.ts';

/** What are suffix bounds worked out with? The search's own options, and what stands before what. */
export interface SuffixOptions {
  readonly search: RouteSearchOptions;
  readonly landmarks: Landmarks;
  /** States taken up at most in each smaller search. */
  readonly nodes: number;
}

interface Entry {
  readonly at: number;
  /** Graph number of the picked fact. */
  readonly fact: number;
  readonly before: Int32Array;
}

const entriesOf = ({ search, landmarks }: SuffixOptions): Entry[] => {
  const { bounds, target } = search;
  const entries: Entry[] = [];
  for (let at = 0; at < Math.min(bounds.size, MOST_ENTRIES); at++) {
    if ((bounds.steps[at] ?? 0) === 0) break;
    const fact = target.facts[(bounds.word[at] ?? 0) * 32 + 31 - Math.clz32(bounds.bit[at] ?? 0)] ?? -1;
    const before = landmarks.ofFact(fact);
    if (before) entries.push({ at, fact, before });
  }
  return entries;
};

/** Does every action that gives the fact end the step it is in with its last atom? */
const endsClosed = ({ target, hands }: RouteSearchOptions, fact: number): boolean =>
  target.actions.every((action) => {
    if (!target.graph.gives[action]?.includes(fact)) return true;
    if ((hands.after[hands.start]?.[action] ?? -1) < 0) hands.fill(hands.start, action);
    return hands.isClosed(hands.after[hands.start]?.[action] ?? -1);
  });

/** All local facts that need not wait for this one, and itself. */
const stateAfter = ({ search, landmarks }: SuffixOptions, fact: number): Int32Array => {
  const { target } = search;
  const state = new Int32Array(target.words);
  for (const [local, other] of target.facts.entries()) {
    const before = landmarks.ofFact(other);
    if (other === fact || (before && !hasNode(before, fact)))
      state[local >> 5] = (state[local >> 5] ?? 0) | (1 << (local & 31));
  }
  return state;
};

/**
 * How many steps are still to come, at least, once each mandatory fact has just come true? The fewest steps of a smaller
 * problem: everything that need not wait for the fact is given. The latest facts first, so that each smaller search has the
 * bounds of those after it. Proof: docs/method/best-found.md, "Suffixes".
 */
export const withSuffixes = (options: SuffixOptions): LowerBounds => {
  const { search } = options;
  const entries = entriesOf(options);
  const earlier = (entry: Entry): number => entries.filter((other) => hasNode(entry.before, other.fact)).length;
  const latestFirst = [...entries].sort((a, b) => earlier(b) - earlier(a));
  const suffixes: Suffix[] = [];
  for (const entry of latestFirst) {
    if (!endsClosed(search, entry.fact)) continue;
    const bounds = { ...search.bounds, suffixes };
    const limits = { ...search.limits, nodes: options.nodes };
    const start = stateAfter(options, entry.fact);
    const { steps: _, ...rest } = search;
    const result = new RouteSearch({ ...rest, bounds, limits, start, order: 'steps' }).run();
    if (result.outcome === 'none') continue;
    const until = entries.reduce(
      (mask, other) => (hasNode(entry.before, other.fact) ? mask | (1 << other.at) : mask),
      0,
    );
    suffixes.push({ own: 1 << entry.at, until, steps: result.steps });
  }
  return { ...search.bounds, suffixes };
};
