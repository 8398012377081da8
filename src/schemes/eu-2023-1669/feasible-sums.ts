/** One addend of a weighted sum: its weight and the whole numbers it may be. */
export interface Addend {
  readonly id: string;
  readonly weight: number;
  readonly values: readonly number[];
}

const sumsFrom = (start: ReadonlySet<number>, addend: Addend, sign: 1 | -1): Set<number> => {
  const next = new Set<number>();
  for (const sum of start) for (const value of addend.values) next.add(sum + sign * addend.weight * value);
  return next;
};

/**
 * Which values can each addend take so that the weighted sum hits one of the targets? Exact, by dynamic programming over
 * integer sums from both ends; cost grows with addends × values × distinct sums. Empty lists all over mean that no
 * assignment does; if one addend has a value, every addend has.
 */
export const feasibleValues = (
  addends: readonly Addend[],
  targets: ReadonlySet<number>,
): Readonly<Record<string, readonly number[]>> => {
  const before: Set<number>[] = [new Set([0])];
  for (const addend of addends) before.push(sumsFrom(before.at(-1) ?? new Set(), addend, 1));
  let wanted: Set<number> = new Set(targets);
  const result: [string, readonly number[]][] = [];
  for (const [index, addend] of [...addends.entries()].reverse()) {
    const reached = before[index] ?? new Set<number>();
    const fits = (value: number) => [...reached].some((sum) => wanted.has(sum + addend.weight * value));
    result.unshift([addend.id, addend.values.filter(fits)]);
    wanted = sumsFrom(wanted, addend, -1);
  }
  return Object.fromEntries(result);
};

/** Which sums at all can the addends make? In rising order. */
export const reachableSums = (addends: readonly Addend[]): readonly number[] => {
  let sums: Set<number> = new Set([0]);
  for (const addend of addends) sums = sumsFrom(sums, addend, 1);
  return [...sums].sort((a, b) => a - b);
};
