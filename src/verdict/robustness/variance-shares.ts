/** A share with how far the sampling alone may have put it off: its standard error. */
export interface EstimatedShare {
  readonly share: number;
  readonly error: number;
}

/** How much of the spread of a figure one uncertain quantity carries, as shares of the variance. */
export interface VarianceShare {
  /** By itself: V(E[Y | Xᵢ]) / V(Y). Over all quantities these sum to at most 1. */
  readonly alone: EstimatedShare;
  /** With all that it does together with others: E[V(Y | all but Xᵢ)] / V(Y). These may sum to more than 1. */
  readonly withOthers: EstimatedShare;
}

/** The spread of a figure over samples, and whose it is. */
export interface VarianceShares {
  readonly mean: number;
  /** Variance over the samples, in the square of the figure's unit. */
  readonly variance: number;
  /** One a quantity, in their order. */
  readonly shares: readonly VarianceShare[];
}

/** What is sampled: a figure of so many independent quantities, each given as a number drawn evenly from 0 to below 1. */
export interface Sampling {
  readonly quantities: number;
  /** Rows of each of the two tables of draws, 2 or more; the figure is worked out rows × (quantities + 2) times. */
  readonly samples: number;
  readonly next: () => number;
  readonly figure: (point: readonly number[]) => number;
}

/**
 * Which quantity carries how much of the spread of a figure? Two independent tables of draws A and B, and A with one column at
 * a time from B: for the share alone the estimator mean(f(B)·(f(A_B) − f(A))) / V of Saltelli et al. 2010 (Computer Physics
 * Communications 181:259, table 2 b), f(B) less the mean, which changes no expectation and steadies the estimate; with others
 * mean((f(A) − f(A_B))²) / 2V of Jansen 1999 (Computer Physics Communications 117:35). Formulas read in a library's
 * documentation, not in the papers. V is the variance over A and B together. Estimates may fall below 0 by their error.
 * Undefined where the figure does not vary at all. Standard errors leave the error of V itself out.
 */
export const varianceShares = ({ quantities, samples, next, figure }: Sampling): VarianceShares | undefined => {
  const table = (): readonly (readonly number[])[] =>
    Array.from({ length: samples }, () => Array.from({ length: quantities }, () => next()));
  const [a, b] = [table(), table()];
  const [ofA, ofB] = [a.map(figure), b.map(figure)];
  const { mean, variance } = spreadOf([...ofA, ...ofB]);
  if (variance === 0) return undefined;
  const shareOf = (terms: readonly number[]): EstimatedShare => {
    const spread = spreadOf(terms);
    return { share: spread.mean / variance, error: Math.sqrt(spread.variance / samples) / variance };
  };
  const shares = Array.from({ length: quantities }, (_, column): VarianceShare => {
    const mixed = a.map((row, index) => figure(row.with(column, b[index]?.[column] ?? 0)));
    const at = (values: readonly number[], index: number): number => values[index] ?? 0;
    return {
      alone: shareOf(mixed.map((value, index) => (at(ofB, index) - mean) * (value - at(ofA, index)))),
      withOthers: shareOf(mixed.map((value, index) => (at(ofA, index) - value) ** 2 / 2)),
    };
  });
  return { mean, variance, shares };
};

/** Mean and variance of values; the variance over one less than their number. */
const spreadOf = (values: readonly number[]): { readonly mean: number; readonly variance: number } => {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  const squares = values.reduce((sum, value) => sum + (value - mean) ** 2, 0);
  return { mean, variance: squares / (values.length - 1) };
};
