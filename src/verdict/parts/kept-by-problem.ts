import type { RouteProblem } from '#routes/problem/route-problem';

const results = new WeakMap<RouteProblem, Map<string, unknown>>();

/** What was found on this very problem under this key, made once: a record that changes without its routes asks again and again. */
export const keptByProblem = <Result>(problem: RouteProblem, key: string, make: () => Result): Result => {
  const byKey = results.get(problem) ?? new Map<string, unknown>();
  results.set(problem, byKey);
  if (!byKey.has(key)) byKey.set(key, make());
  return byKey.get(key) as Result;
};
