/** Lanczos coefficients, g = 7, n = 9: relative error below 1e-14 for positive arguments (from memory; tested against factorials). */
const lanczos = [
  0.99999999999980993, 676.5203681218851, -1259.1392167224028, 771.32342877765313, -176.61502916214059,
  12.507343278686905, -0.13857109526572012, 9.9843695780195716e-6, 1.5056327351493116e-7,
];

/** What is the logarithm of the gamma function of a positive number? Lanczos' approximation; reflected below 1/2. */
export const logGamma = (x: number): number => {
  if (x < 0.5) return Math.log(Math.PI / Math.sin(Math.PI * x)) - logGamma(1 - x);
  const z = x - 1;
  const sum = lanczos.slice(1).reduce((total, c, index) => total + c / (z + index + 1), lanczos[0] ?? 0);
  const t = z + 7.5;
  return 0.5 * Math.log(2 * Math.PI) + (z + 0.5) * Math.log(t) - t + Math.log(sum);
};

/**
 * How likely is a beta variable with these shapes to be at most x? The regularised incomplete beta function I_x(a, b) by
 * its continued fraction (NIST Digital Library of Mathematical Functions, 8.17.22), mirrored where that converges faster.
 */
const betaProbability = (x: number, a: number, b: number): number => {
  if (x <= 0) return 0;
  if (x >= 1) return 1;
  if (x > (a + 1) / (a + b + 2)) return 1 - betaProbability(1 - x, b, a);
  const front = Math.exp(logGamma(a + b) - logGamma(a) - logGamma(b) + a * Math.log(x) + b * Math.log1p(-x));
  return (front / a) * betaFraction(x, a, b);
};

const TINY = 1e-300;
const MOST_TERMS = 10_000;

/** 1 / (1 + d1 / (1 + d2 / (1 + ...))) with the coefficients of DLMF 8.17.23, by Lentz's method. */
const betaFraction = (x: number, a: number, b: number): number => {
  let value = 1;
  let upper = 1;
  let lower = 0;
  for (let term = 1; term < MOST_TERMS; term++) {
    const d = coefficient(term, { x, a, b });
    lower = 1 / nonZero(1 + d * lower);
    upper = nonZero(1 + d / upper);
    value *= upper * lower;
    if (Math.abs(upper * lower - 1) < 1e-15) break;
  }
  return 1 / value;
};

const coefficient = (term: number, { x, a, b }: { x: number; a: number; b: number }): number => {
  const m = term >> 1;
  const below = a + 2 * m;
  return term % 2 === 0
    ? (m * (b - m) * x) / ((below - 1) * below)
    : (-(a + m) * (a + b + m) * x) / (below * (below + 1));
};

const nonZero = (value: number): number => (Math.abs(value) < TINY ? TINY : value);

/**
 * Below which x does a beta variable with these shapes lie with probability p? By halving the interval 0 to 1 until it holds
 * no further number: slow but sure. Shapes are positive, p lies between 0 and 1.
 */
export const betaQuantile = (p: number, a: number, b: number): number => {
  let low = 0;
  let high = 1;
  for (;;) {
    const middle = (low + high) / 2;
    if (middle <= low || middle >= high) return middle;
    if (betaProbability(middle, a, b) < p) low = middle;
    else high = middle;
  }
};
