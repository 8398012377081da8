/** From this chance on (3^(-1/3) short of 1, about 0.307) no group of any size beats one by one in two stages. */
const BREAK_EVEN = 1 - 3 ** (-1 / 3);

/** A group size and what it costs. */
export interface DorfmanGroup {
  /** Parts fitted together; 1 is one by one. */
  readonly size: number;
  /** Expected runs per part, 1 for one by one. */
  readonly runsPerPart: number;
}

/**
 * How many runs per part does it take on average to fit `size` parts together and, when that fails, each of them alone?
 * `chance` [0 to 1] is that of one part to fail. Formula: 1/n + 1 - (1 - p)^n, for n of 2 and more; Dorfman, The detection of
 * defective members of large populations, Annals of Mathematical Statistics 14 (1943) 436-440, from memory.
 */
export const dorfmanRunsPerPart = (chance: number, size: number): number =>
  size < 2 ? 1 : 1 / size + 1 - (1 - chance) ** size;

/**
 * Which group size costs least in two stages when each part fails with the same chance [0 to 1]? One by one from the break-even
 * on; the smaller one of two that cost the same. For a chance of 0 there is no best size: an error of kind `RangeError`.
 */
export const dorfmanGroup = (chance: number): DorfmanGroup => {
  if (!(chance > 0 && chance <= 1)) throw new RangeError(`a chance above 0 and up to 1 is needed, not ${chance}`);
  let best: DorfmanGroup = { size: 1, runsPerPart: 1 };
  if (chance >= BREAK_EVEN) return best;
  // The cost falls to about size 1/sqrt(p) and rises after it; twice that and two more is past the turn for every chance here.
  const last = Math.ceil(2 / Math.sqrt(chance)) + 2;
  for (let size = 2; size <= last; size++) {
    const runsPerPart = dorfmanRunsPerPart(chance, size);
    if (runsPerPart < best.runsPerPart - 1e-12) best = { size, runsPerPart };
  }
  return best;
};
