import { hasNode, type Landmarks } from '../structure/landmarks.ts';
import type { HandTable } from './hand-table.ts';
import { type Levels, worseLevel } from './levels.ts';
import type { TargetProblem } from './target-problem.ts';

/**
 * What must still be paid from any state? One entry for each picked mandatory fact; the achievers of two picked facts never
 * overlap, so that the entries of the facts not yet true may be added up.
 */
export interface LowerBounds {
  readonly size: number;
  readonly word: Int32Array;
  readonly bit: Int32Array;
  /** Least steps any achiever adds up to its last closing atom. */
  readonly steps: Int32Array;
  /** Least work of any achiever [ms]. */
  readonly milliseconds: Int32Array;
  /** Tools that every achiever takes. */
  readonly tools: Int32Array;
  /** The best level any achiever can have. */
  readonly level: Int32Array;
  /** For each fact that may still begin a stretch: where it stands, and the best level that can follow if it is the last. */
  readonly resets: readonly LastReset[];
  /** What is still to come after some of the first entries; none until worked out. */
  readonly suffixes: readonly Suffix[];
}

/** Entries that a suffix tells apart, as bits. */
export const MOST_ENTRIES = 30;

/** Steps at least once an entry has come true. Entries are bits here; only the first thirty have one. */
export interface Suffix {
  readonly own: number;
  /** The entries that come before it on every route, itself with them. */
  readonly until: number;
  readonly steps: number;
}

/** A fact that begins a stretch, and the best level of a stretch that begins with it and is the last. */
interface LastReset {
  readonly word: number;
  readonly bit: number;
  readonly level: number;
}

interface Entry {
  readonly fact: number;
  readonly achievers: readonly number[];
  readonly steps: number;
  readonly milliseconds: number;
}

const least = (values: readonly number[]): number => values.reduce((low, value) => Math.min(low, value), Infinity);

/** Disjoint entries, those with most steps, then most time, first. */
const pick = (entries: readonly Entry[]): Entry[] => {
  const taken = new Set<number>();
  const picked: Entry[] = [];
  const sorted = [...entries].sort((a, b) => b.steps - a.steps || b.milliseconds - a.milliseconds);
  for (const entry of sorted) {
    if (entry.achievers.some((action) => taken.has(action))) continue;
    for (const action of entry.achievers) taken.add(action);
    picked.push(entry);
  }
  return picked;
};

/** The best of each, fastener and tool apart, over several levels. */
const bestLevel = (levels: Levels, list: readonly number[]): number => {
  const size = levels.tools.length;
  return least(list.map((level) => Math.floor(level / size))) * size + least(list.map((level) => level % size));
};

/** The worst, over mandatory facts that only come after this reset, of the best that their achievers can do. */
const levelAfterReset = (
  { target, levels, options }: { target: TargetProblem; levels: Levels; options: BoundOptions },
  reset: number,
): number => {
  let level = 0;
  for (const fact of target.mandatory) {
    const achievers = options.achievers(fact);
    const isLater = achievers.every((action) => {
      const before = options.landmarks.ofAction(action);
      return before && hasNode(before, reset) && !target.graph.gives[action]?.includes(reset);
    });
    const own = isLater
      ? bestLevel(
          levels,
          achievers.map((action) => levels.ofAction[action] ?? 0),
        )
      : 0;
    level = worseLevel(levels, level, own);
  }
  return level;
};

/** Every local fact that may begin a stretch. One that only comes with all targets at once begins none. */
const lastResets = (target: TargetProblem, levels: Levels, options: BoundOptions): LastReset[] =>
  target.facts.flatMap((fact, local) => {
    if (!hasNode(target.resets, local)) return [];
    const completes = (action: number): boolean =>
      target.targets.every((goal) => target.graph.gives[action]?.includes(goal));
    if (options.achievers(fact).every(completes)) return [];
    const level = levelAfterReset({ target, levels, options }, fact);
    return [{ word: local >> 5, bit: 1 << (local & 31), level }];
  });

/** What do bounds need besides the target problem? */
export interface BoundOptions {
  readonly hands: HandTable;
  readonly landmarks: Landmarks;
  /** Actions of the target problem that give a fact, by graph numbers. */
  readonly achievers: (fact: number) => readonly number[];
}

/** What must still be paid from any state of this target problem? Proofs: docs/method/best-found.md, "Lower bounds". */
export const lowerBounds = (target: TargetProblem, levels: Levels, options: BoundOptions): LowerBounds => {
  const { hands, achievers } = options;
  const entries = target.mandatory.map((fact) => {
    const list = achievers(fact);
    return {
      fact,
      achievers: list,
      steps: least(list.map((action) => hands.closing[action] ?? 0)),
      milliseconds: least(list.map((action) => hands.work[action] ?? 0)),
    };
  });
  const picked = pick(entries);
  const local = picked.map((entry) => target.facts.indexOf(entry.fact));
  const each = (value: (entry: Entry) => number): Int32Array => Int32Array.from(picked, value);
  return {
    size: picked.length,
    word: Int32Array.from(local, (fact) => fact >> 5),
    bit: Int32Array.from(local, (fact) => 1 << (fact & 31)),
    steps: each((entry) => entry.steps),
    milliseconds: each((entry) => entry.milliseconds),
    tools: each((entry) => entry.achievers.reduce((mask, action) => mask & (hands.toolBits[action] ?? 0), -1)),
    level: each((entry) =>
      bestLevel(
        levels,
        entry.achievers.map((action) => levels.ofAction[action] ?? 0),
      ),
    ),
    resets: lastResets(target, levels, options),
    suffixes: [],
  };
};
