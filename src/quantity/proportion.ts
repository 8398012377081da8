import betaQuantile from '@stdlib/stats-base-dists-beta-quantile';

/** The two ends of an interval for a share, 0 to 1. */
export interface Proportion {
  readonly low: number;
  readonly high: number;
}

/** How often did it happen, in how many tries, and how sure is the two-sided interval to be (0.95)? */
export interface CountedShare {
  readonly count: number;
  readonly tries: number;
  readonly confidence: number;
}

/**
 * Which shares does a count not contradict, exactly? Clopper and Pearson, Biometrika 26 (1934) 404-413, by beta quantiles
 * B(a/2; x, n-x+1) and B(1-a/2; x+1, n-x): never less than the stated confidence. Throws a RangeError for a count that is
 * no whole number from 0 to the tries, or a confidence not between 0 and 1; so do the other intervals.
 */
export const clopperPearson = (share: CountedShare): Proportion => {
  const { count, tries, tail } = checked(share);
  return {
    low: count === 0 ? 0 : betaQuantile(tail, count, tries - count + 1),
    high: count === tries ? 1 : betaQuantile(1 - tail, count + 1, tries - count),
  };
};

/**
 * Which shares does a count not contradict, by Jeffreys' prior? Beta quantiles B(a/2; x+1/2, n-x+1/2) and upper likewise,
 * 0 at no event and 1 at nothing but events. Brown, Cai and DasGupta, Statistical Science 16 (2001) 101-133.
 */
export const jeffreys = (share: CountedShare): Proportion => {
  const { count, tries, tail } = checked(share);
  return {
    low: count === 0 ? 0 : betaQuantile(tail, count + 0.5, tries - count + 0.5),
    high: count === tries ? 1 : betaQuantile(1 - tail, count + 0.5, tries - count + 0.5),
  };
};

/**
 * Which shares does a count not contradict, by the score? (p + z²/2n ± z √(p(1-p)/n + z²/4n²)) / (1 + z²/n).
 * NIST/SEMATECH e-Handbook of Statistical Methods, 7.2.4.1. `z` is the normal quantile: 1.959964 for 95 %.
 */
export const wilson = (count: number, tries: number, z: number): Proportion => {
  checked({ count, tries, confidence: 0.5 });
  const p = count / tries;
  const middle = p + (z * z) / (2 * tries);
  const half = z * Math.sqrt((p * (1 - p)) / tries + (z * z) / (4 * tries * tries));
  const scale = 1 + (z * z) / tries;
  return { low: count === 0 ? 0 : (middle - half) / scale, high: count === tries ? 1 : (middle + half) / scale };
};

/**
 * How likely may an event be that was not seen in `tries` tries? The exact one-sided limit 1 - a^(1/n); the rule of three,
 * 3/n, approaches it at 95 % from about 30 tries (Jovanovic and Levy 1997).
 */
export const noEventLimit = (tries: number, tail: number): number => {
  checked({ count: 0, tries, confidence: 1 - tail });
  return 1 - tail ** (1 / tries);
};

const checked = ({ count, tries, confidence }: CountedShare): { count: number; tries: number; tail: number } => {
  const isCount = Number.isInteger(count) && Number.isInteger(tries) && count >= 0 && count <= tries && tries > 0;
  if (!isCount) throw new RangeError(`${count} of ${tries} is not a count of tries`);
  if (!(confidence > 0 && confidence < 1)) throw new RangeError(`a confidence lies between 0 and 1, not ${confidence}`);
  return { count, tries, tail: (1 - confidence) / 2 };
};
