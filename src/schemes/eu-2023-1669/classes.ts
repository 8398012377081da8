import { showScaled } from '#quantity/explained';

/** The five letters of the index, best first. */
export type IndexClass = 'A' | 'B' | 'C' | 'D' | 'E';

/** One row of the class table: the letter and the least R that earns it, in ten-thousandths. */
export interface ClassRow {
  readonly letter: IndexClass;
  readonly from: number;
}

/**
 * Which R earns which letter? Least R in ten-thousandths, best first.
 * Source: Regulation (EU) 2023/1669, Annex II Table 4 (read).
 */
export const CLASS_TABLE: readonly ClassRow[] = [
  { letter: 'A', from: 40_000 },
  { letter: 'B', from: 33_500 },
  { letter: 'C', from: 25_500 },
  { letter: 'D', from: 17_500 },
  { letter: 'E', from: 10_000 },
];

/** Which letter does R earn (Annex II Table 4)? R in ten-thousandths; `undefined` below 1.0000, where there is no class. */
export const classOf = (r: number): IndexClass | undefined => CLASS_TABLE.find((row) => r >= row.from)?.letter;

/** How may R be brought to two decimals? The Regulation names no rule for R (Annex IV point 5). */
export type RoundingRule = 'half-up' | 'half-even' | 'cut';

/** What is R at two decimals, in hundredths? R in ten-thousandths, not negative. */
export const roundedR = (r: number, rule: RoundingRule = 'half-up'): number => {
  const whole = Math.floor(r / 100);
  const rest = r - whole * 100;
  if (rule === 'cut' || rest < 50) return whole;
  if (rest > 50 || rule === 'half-up') return whole + 1;
  return whole % 2 === 0 ? whole : whole + 1;
};

/** All ways of rounding, the usual one first. */
export const ROUNDING_RULES: readonly RoundingRule[] = ['half-up', 'half-even', 'cut'];

/**
 * What does the choice of rounding change for this R? The figure printed and the letter by each way, in one sentence;
 * `undefined` where all ways and R as computed agree. R in ten-thousandths.
 */
export const roundingRemark = (r: number): string | undefined => {
  const ways = ROUNDING_RULES.map((rule) => ({ rule, printed: roundedR(r, rule) }));
  const letter = (value: number): string => classOf(value) ?? 'none';
  const differ = ways.some(({ printed }) => printed !== ways[0]?.printed || letter(printed * 100) !== letter(r));
  if (!differ) return undefined;
  const each = ways.map(({ rule, printed }) => `${rule} ${showScaled(printed, 2)} (${letter(printed * 100)})`);
  return `R ${showScaled(r, 4)} is ${letter(r)} as computed; rounded ${each.join(', ')}`;
};

/** How far is R from the nearest class threshold, and which letter lies beyond it? */
export interface ThresholdDistance {
  /** R minus the threshold, in ten-thousandths: zero or above means R has reached it. */
  readonly scaled: number;
  /** The same with sign and four decimals, for instance `-0.0150`. */
  readonly distance: string;
  readonly threshold: string;
  /** The letter on the other side of the threshold. */
  readonly letterBeyond: IndexClass;
}

/**
 * How far is R from the nearest class threshold? R in ten-thousandths, 10 000 to 50 000; the scale's own lower end is no
 * threshold. Between two equally near thresholds the lower one is named, since losing the letter matters more.
 */
export const distanceToThreshold = (r: number): ThresholdDistance =>
  CLASS_TABLE.slice(0, -1)
    .map((row, index): ThresholdDistance => {
      const scaled = r - row.from;
      const below = CLASS_TABLE[index + 1] ?? row;
      return {
        scaled,
        distance: `${scaled >= 0 ? '+' : ''}${showScaled(scaled, 4)}`,
        threshold: showScaled(row.from, 4),
        letterBeyond: scaled >= 0 ? below.letter : row.letter,
      };
    })
    .reduce((nearest, next) => (Math.abs(next.scaled) <= Math.abs(nearest.scaled) ? next : nearest));
