/** What is the arithmetic mean of figures? `NaN` of none. Sums with compensation (Neumaier 1974), so order hardly matters. */
export const meanOf = (figures: readonly number[]): number => sumOf(figures) / figures.length;

const sumOf = (figures: readonly number[]): number => {
  let sum = 0;
  let lost = 0;
  for (const figure of figures) {
    const next = sum + figure;
    lost += Math.abs(sum) >= Math.abs(figure) ? sum - next + figure : figure - next + sum;
    sum = next;
  }
  return sum + lost;
};

/** What is the sample standard deviation (divisor n - 1)? `undefined` below two figures. */
export const standardDeviationOf = (figures: readonly number[]): number | undefined => {
  if (figures.length < 2) return undefined;
  const mean = meanOf(figures);
  return Math.sqrt(sumOf(figures.map((figure) => (figure - mean) ** 2)) / (figures.length - 1));
};

/** What lies in the middle of sorted figures? `undefined` of none. */
export const medianOf = (figures: readonly number[]): number | undefined => quantileOf(figures, 0.5);

/**
 * Below which value does a share of the figures lie? Linear interpolation between order statistics, definition 7 of
 * Hyndman & Fan, The American Statistician 50 (1996) 361-365. `share` is 0 to 1; `undefined` of no figures.
 */
export const quantileOf = (figures: readonly number[], share: number): number | undefined => {
  const sorted = [...figures].sort((a, b) => a - b);
  const place = (sorted.length - 1) * share;
  const below = sorted[Math.floor(place)];
  const above = sorted[Math.ceil(place)];
  if (below === undefined || above === undefined) return undefined;
  return below + (above - below) * (place - Math.floor(place));
};

/** The three quartiles of some figures. */
export interface Quartiles {
  readonly lower: number;
  readonly median: number;
  readonly upper: number;
}

/** Which quartiles do the figures have? `undefined` of none. */
export const quartilesOf = (figures: readonly number[]): Quartiles | undefined => {
  const [lower, median, upper] = [0.25, 0.5, 0.75].map((share) => quantileOf(figures, share));
  return lower === undefined || median === undefined || upper === undefined ? undefined : { lower, median, upper };
};

/** Figures parted by the interquartile rule. */
export interface IqrParting {
  readonly kept: readonly number[];
  readonly set: readonly number[];
}

/**
 * Which figures lie further than 1.5 interquartile ranges outside the quartiles (Tukey, Exploratory Data Analysis, 1977)?
 * `kept` and `set` aside keep the order given. Below four figures none is set aside: quartiles of three say nothing.
 */
export const partByIqr = (figures: readonly number[]): IqrParting => {
  const quartiles = figures.length < 4 ? undefined : quartilesOf(figures);
  if (!quartiles) return { kept: figures, set: [] };
  const reach = 1.5 * (quartiles.upper - quartiles.lower);
  const inside = (figure: number): boolean => figure >= quartiles.lower - reach && figure <= quartiles.upper + reach;
  return { kept: figures.filter(inside), set: figures.filter((figure) => !inside(figure)) };
};
