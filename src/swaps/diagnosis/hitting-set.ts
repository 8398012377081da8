/** Larger answers than this are found one by one and then thinned, and may not be the smallest. */
const PROVED_UP_TO = 3;

/**
 * Which few members touch every one of the sets? The smallest choice where one of up to three members does, else one from which no
 * member can be left out. Members are whole numbers; smaller sets and smaller numbers are tried first, so that the answer
 * depends on nothing else. Undefined where a set is empty: nothing touches it. Cost: the cube of the members at worst.
 */
export const smallestHittingSet = (sets: readonly (readonly number[])[]): readonly number[] | undefined => {
  const needed = minimalSets(sets);
  if (needed.some((set) => set.length === 0)) return undefined;
  for (let size = 0; size <= PROVED_UP_TO; size++) {
    const found = hitWith(needed, size);
    if (found) return [...found].sort((a, b) => a - b);
  }
  return thinned(needed);
};

type Sets = readonly (readonly number[])[];

/** A set that holds another one is touched whenever that is. */
const minimalSets = (sets: Sets): Sets => {
  const sorted = sets
    .map((set) => [...set].sort((a, b) => a - b))
    .sort((a, b) => a.length - b.length || compareMembers(a, b));
  const kept: (readonly number[])[] = [];
  for (const set of sorted) {
    const own = new Set(set);
    if (!kept.some((other) => other.every((member) => own.has(member)))) kept.push(set);
  }
  return kept;
};

const compareMembers = (a: readonly number[], b: readonly number[]): number =>
  a.map((member, place) => member - (b[place] ?? 0)).find((difference) => difference !== 0) ?? 0;

/** Some member of the first untouched set must be chosen: try each, the smallest number first. */
const hitWith = (sets: Sets, size: number): readonly number[] | undefined => {
  const [first] = sets;
  if (!first) return [];
  if (size === 0) return undefined;
  for (const member of first) {
    const rest = hitWith(
      sets.filter((set) => !set.includes(member)),
      size - 1,
    );
    if (rest) return [member, ...rest];
  }
  return undefined;
};

/** The member that touches most is taken again and again; then every one that is not needed is left out, the last first. */
const thinned = (sets: Sets): readonly number[] => {
  const chosen: number[] = [];
  for (let left = sets; left.length > 0; left = left.filter((set) => !set.includes(chosen.at(-1) ?? -1)))
    chosen.push(mostFrequent(left));
  const hits = (members: readonly number[]): boolean =>
    sets.every((set) => set.some((member) => members.includes(member)));
  let kept = [...chosen].sort((a, b) => a - b);
  for (const member of [...kept].reverse()) {
    const without = kept.filter((other) => other !== member);
    if (hits(without)) kept = without;
  }
  return kept;
};

const mostFrequent = (sets: Sets): number => {
  const counts = new Map<number, number>();
  for (const member of sets.flat()) counts.set(member, (counts.get(member) ?? 0) + 1);
  return [...counts].sort(([a, most], [b, other]) => other - most || a - b)[0]?.[0] ?? -1;
};
