import type { CompiledAction, CompiledProblem } from './compiled-problem.ts';
import type { NeutralProblem } from './neutral-problem.ts';

/**
 * How many integer milliseconds are these seconds? Rounded to the nearest, halves up: a stopwatch is not finer, and the
 * optimum is exact for the rounded figures.
 */
export const toMilliseconds = (seconds: number): number => Math.round(seconds * 1000);

const changeoverTable = (problem: NeutralProblem, toolNumber: ReadonlyMap<string, number>): number[] => {
  const width = problem.tools.length + 1;
  const table = new Array<number>(width * width).fill(0);
  problem.tools.forEach((tool, index) => {
    const to = index + 1;
    for (let from = 0; from < width; from++) {
      const free = from === to || (from === 0 && problem.firstPickupFree === true);
      table[from * width + to] = free ? 0 : toMilliseconds(tool.pickupSeconds);
    }
  });
  for (const [from, to, seconds] of problem.changeover ?? []) {
    const row = toolNumber.get(from) ?? 0;
    table[row * width + (toolNumber.get(to) ?? 0)] = toMilliseconds(seconds);
  }
  return table;
};

/** Which numbers does the search put for a route problem's names? Expects a problem that the parser has passed. */
export const compileNeutral = (problem: NeutralProblem): CompiledProblem => {
  const toolNumber = new Map(problem.tools.map((tool, index) => [tool.id, index + 1]));
  const factNumber = new Map<string, number>();
  const fact = (name: string): number => {
    const known = factNumber.get(name);
    if (known !== undefined) return known;
    factNumber.set(name, factNumber.size);
    return factNumber.size - 1;
  };
  const facts = (names: readonly string[]): number[] => [...new Set(names.map(fact))];
  const actions = problem.actions.map((action): CompiledAction => {
    const tool = action.tool === null ? 0 : (toolNumber.get(action.tool) ?? 0);
    const { needs, gives } = action;
    const cost = toMilliseconds(action.seconds);
    return { id: action.id, cost, startTool: tool, endTool: tool, needs: facts(needs), gives: facts(gives) };
  });
  const target = facts(problem.target);
  const changeover = changeoverTable(problem, toolNumber);
  return { factCount: factNumber.size, toolCount: problem.tools.length, actions, target, changeover };
};
