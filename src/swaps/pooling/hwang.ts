/**
 * How large is the group that generalised binary splitting fits next, with `left` parts unknown of which at most `bad` fail?
 * With left <= 2 bad - 2 one part alone; else 2^a with a = floor(log2((left - bad + 1) / bad)). Hwang, A method for detecting all
 * defective members in a population by group testing, Journal of the American Statistical Association 67 (1972) 605-608, from
 * memory.
 */
export const hwangGroup = (left: number, bad: number): number =>
  left <= 2 * bad - 2 ? 1 : 2 ** Math.floor(Math.log2((left - bad + 1) / bad));

/**
 * How many runs does generalised binary splitting take at worst to know each of `parts` parts when at most `bad` of them fail?
 * A group that passes is dropped; in one that fails a failing part is found by halving, what passed meanwhile is dropped and what
 * was not looked at goes back to the rest. Cost: parts x bad x log parts.
 */
export const hwangWorstRuns = (parts: number, bad: number): number => {
  const known = new Map<string, number>();
  const worst = (left: number, most: number): number => {
    if (left === 0 || most === 0) return 0;
    if (left <= 2 * most - 2) return left;
    const key = `${left} ${most}`;
    const kept = known.get(key);
    if (kept !== undefined) return kept;
    const group = hwangGroup(left, most);
    let high = 1 + worst(left - group, most);
    // The failing part found may be any of the group: those before it in the halving are dropped, those after it are not known.
    for (let dropped = 0; dropped < group; dropped++)
      high = Math.max(high, 1 + Math.log2(group) + worst(left - dropped - 1, most - 1));
    known.set(key, high);
    return high;
  };
  return worst(parts, bad);
};
