/**
 * How many runs does it take on average to know each of `parts` parts, when all are fitted together first, a failing group is
 * halved, and what a passing half says of the other is used? `chance` [0 to 1] is that of one part to fail, alike and independent.
 * Recursion, with q = 1 - chance and k = floor(n/2): F(n) = 1 + (1 - q^n) G(n); G(1) = 0;
 * G(n) = 1 + P(first half fails | n fails) (G(k) + F(n - k)) + P(only the rest fails | n fails) G(n - k). The recursion is worked
 * out from the scheme and is no published formula.
 */
export const halvingRuns = (parts: number, chance: number): number => {
  const passing = 1 - chance;
  const fresh: number[] = [0];
  const failing: number[] = [0, 0];
  for (let count = 1; count <= parts; count++) {
    const half = Math.floor(count / 2);
    const failed = 1 - passing ** count;
    if (count > 1) {
      const first = failed > 0 ? (1 - passing ** half) / failed : 0;
      const rest = count - half;
      failing[count] = 1 + first * (at(failing, half) + at(fresh, rest)) + (1 - first) * at(failing, rest);
    }
    fresh[count] = 1 + failed * at(failing, count);
  }
  return at(fresh, parts);
};

const at = (values: readonly number[], index: number): number => values[index] ?? 0;
