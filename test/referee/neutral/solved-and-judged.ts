import { expect } from 'vitest';
import { compileNeutral } from '#routes/neutral/compile-neutral';
import type { CompiledProblem } from '#routes/neutral/compiled-problem';
import { type CompiledSolution, solveCompiled } from '#routes/neutral/solve-compiled';
import { judge, type RefereeProblem } from './neutral-referee.ts';

/** The compiled form of a judge's problem, fused actions included. */
export const compileForReferee = (problem: RefereeProblem): CompiledProblem => {
  const compiled = compileNeutral({ format: 'unfasten/route-problem', version: 1, ...problem });
  const toolNumber = (id: string): number => problem.tools.findIndex((tool) => tool.id === id) + 1;
  const actions = compiled.actions.map((action, index) => {
    const endTool = problem.actions[index]?.endTool;
    return endTool === undefined ? action : { ...action, endTool: toolNumber(endTool) };
  });
  return { ...compiled, actions };
};

/** The plan of a solution as action ids. */
export const planIds = (problem: RefereeProblem, solution: CompiledSolution): string[] =>
  solution.plan.map((index) => problem.actions[index]?.id ?? `no action ${index}`);

/** Solves, has the plan replayed by the judge, and answers the proved cost [s]; undefined when proved unreachable. */
export const provedSeconds = (problem: RefereeProblem): number | undefined => {
  const solution = solveCompiled(compileForReferee(problem));
  expect(solution.proved).toBe(true);
  if (solution.cost === undefined) return undefined;
  expect(judge(problem, planIds(problem, solution))).toBe(solution.cost);
  return solution.cost / 1000;
};
