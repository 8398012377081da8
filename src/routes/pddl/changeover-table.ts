import { toMilliseconds } from '../neutral/compile-neutral.ts';
import type { NeutralProblem } from '../neutral/neutral-problem.ts';

/** What does going from one tool to another cost [integer ms]? Numbers from 1 in the order of the list, 0 is nothing in hand. */
export function changeoverMilliseconds(problem: NeutralProblem, from: number, to: number): number {
  const fromId = problem.tools[from - 1]?.id;
  const target = problem.tools[to - 1];
  if (from === to || target === undefined) return 0;
  const row = problem.changeover?.findLast(([a, b]) => a === fromId && b === target.id);
  if (row !== undefined) return toMilliseconds(row[2]);
  return from === 0 && problem.firstPickupFree === true ? 0 : toMilliseconds(target.pickupSeconds);
}

/** Is it never cheaper to take a tool up by way of another? Where not, a planner must not take one up but to act. Cubic. */
export function isTriangular(problem: NeutralProblem): boolean {
  const numbers = [0, ...problem.tools.map((_, index) => index + 1)];
  const table = numbers.map((from) => numbers.map((to) => changeoverMilliseconds(problem, from, to)));
  const cost = (from: number, to: number) => table[from]?.[to] ?? 0;
  const tools = numbers.slice(1);
  return numbers.every((from) =>
    tools.every((to) => tools.every((by) => cost(from, to) <= cost(from, by) + cost(by, to))),
  );
}
