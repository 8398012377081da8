import { setBit, wordsFor } from './bit-set.ts';
import type { CompiledAction, CompiledProblem } from './compiled-problem.ts';

/** Lists of numbers end to end: those of `i` stand from `from[i]` to before `from[i + 1]`. */
export interface PackedLists {
  readonly from: Int32Array;
  readonly items: Int32Array;
}

/**
 * The compiled problem laid out for the search: packed lists, one bit set an action, and what follows from the
 * changeover table alone. Tools are numbers from 1; hand 0 is "nothing yet".
 */
export interface SearchSpace {
  readonly factCount: number;
  readonly toolCount: number;
  readonly actionCount: number;
  readonly factWords: number;
  readonly actionWords: number;
  readonly cost: Float64Array;
  readonly startTool: Int32Array;
  readonly endTool: Int32Array;
  readonly needs: PackedLists;
  readonly gives: PackedLists;
  /** Actions that need a fact; actions that give it; actions that start with a tool. */
  readonly needers: PackedLists;
  readonly givers: PackedLists;
  readonly users: PackedLists;
  /** Actions that end with another tool than they started with, by the tool they end with. */
  readonly bringers: PackedLists;
  readonly needBits: Int32Array;
  readonly giveBits: Int32Array;
  readonly target: Int32Array;
  readonly changeover: Float64Array;
  /** 1 where an action may be moved to an earlier time at which its tool is in hand, or be left out, at no cost. */
  readonly movable: Uint8Array;
  /**
   * 1 where leaving the action out of a plan never makes the changeovers dearer. The others are bridges: in a table that
   * breaks the triangle inequality, or by a fused action, they may be worth doing (again) for the tool they leave in hand.
   */
  readonly removable: Uint8Array;
  readonly bridges: Int32Array;
  /** Least cost of taking up a tool once another is in hand; the same, but 0 for tools that a fused action brings. */
  readonly laterPickup: Float64Array;
  readonly repeatPickup: Float64Array;
  /** Least cost of taking up a tool from another one or from empty hands. */
  readonly anyPickup: Float64Array;
  /** For each action, others that do the same or more with the same tool (or none) at no more cost, need for need. */
  readonly rivals: PackedLists;
}

const pack = (lists: readonly (readonly number[])[]): PackedLists => {
  const from = new Int32Array(lists.length + 1);
  lists.forEach((list, index) => {
    from[index + 1] = (from[index] as number) + list.length;
  });
  return { from, items: Int32Array.from(lists.flat()) };
};

const invert = (lists: readonly (readonly number[])[], count: number): PackedLists => {
  const inverse: number[][] = Array.from({ length: count }, () => []);
  lists.forEach((list, index) => {
    for (const item of list) inverse[item]?.push(index);
  });
  return pack(inverse);
};

const bitRows = (lists: readonly (readonly number[])[], words: number): Int32Array => {
  const rows = new Int32Array(lists.length * words);
  lists.forEach((list, index) => {
    const row = rows.subarray(index * words, (index + 1) * words);
    for (const item of list) setBit(row, item);
  });
  return rows;
};

/**
 * May a stretch of work with this tool be taken out of any plan without making the changeovers dearer? Yes when going
 * round by it never undercuts the direct change (triangle inequality through this tool).
 */
const isSkippable = (problem: CompiledProblem, tool: number): boolean => {
  const width = problem.toolCount + 1;
  const cost = (from: number, to: number): number => problem.changeover[from * width + to] as number;
  for (let from = 0; from < width; from++) {
    if (from === tool) continue;
    for (let to = 1; to < width; to++)
      if (to !== tool && cost(from, to) > cost(from, tool) + cost(tool, to)) return false;
  }
  return true;
};

/** Is the way by this action, from any tool to any other, never cheaper than the direct change? */
const isRemovable = (problem: CompiledProblem, action: CompiledAction): boolean => {
  const width = problem.toolCount + 1;
  const { startTool, endTool, cost } = action;
  if (endTool === 0) return true;
  for (let from = 0; from < width; from++) {
    const there = startTool === 0 ? cost : cost + (problem.changeover[from * width + startTool] as number);
    for (let to = 1; to < width; to++) {
      const round = there + (problem.changeover[endTool * width + to] as number);
      if (round < (problem.changeover[from * width + to] as number)) return false;
    }
  }
  return true;
};

const leastPickup = (problem: CompiledProblem, firstRow: number): Float64Array => {
  const width = problem.toolCount + 1;
  const least = new Float64Array(width);
  for (let to = 1; to < width; to++) {
    let best = Number.POSITIVE_INFINITY;
    for (let from = firstRow; from < width; from++)
      if (from !== to) best = Math.min(best, problem.changeover[from * width + to] as number);
    least[to] = best === Number.POSITIVE_INFINITY ? 0 : best;
  }
  return least;
};

const rivalsOf = (actions: readonly CompiledAction[], movable: Uint8Array, givers: PackedLists): PackedLists =>
  pack(
    actions.map((action, index) => {
      const found = new Set<number>();
      for (const fact of action.gives) {
        const end = givers.from[fact + 1] as number;
        for (let at = givers.from[fact] as number; at < end; at++) {
          const other = givers.items[at] as number;
          const rival = actions[other] as CompiledAction;
          const sameTool = rival.startTool === action.startTool && rival.endTool === action.endTool;
          const fewerTools = rival.startTool === 0 && rival.endTool === 0 && movable[index] === 1;
          if (other !== index && rival.cost <= action.cost && (sameTool || fewerTools)) found.add(other);
        }
      }
      return [...found].sort((a, b) => a - b);
    }),
  );

/** What follows from the changeover table for each action: may it be moved, may it be left out? */
const freedoms = (problem: CompiledProblem): { readonly movable: Uint8Array; readonly removable: Uint8Array } => {
  const { actions, toolCount } = problem;
  const used = new Set(actions.map((action) => action.startTool));
  const skippable = Array.from(
    { length: toolCount + 1 },
    (_, tool) => tool === 0 || (used.has(tool) && isSkippable(problem, tool)),
  );
  const movable = Uint8Array.from(actions, (a) => (a.startTool === a.endTool && skippable[a.startTool] ? 1 : 0));
  const removable = Uint8Array.from(actions, (a, at) => (movable[at] === 1 || isRemovable(problem, a) ? 1 : 0));
  return { movable, removable };
};

/** Facts and actions by each other, packed. */
const relations = (problem: CompiledProblem) => {
  const { actions, factCount, toolCount } = problem;
  const needs = actions.map((action) => action.needs);
  const gives = actions.map((action) => action.gives);
  const brings = actions.map((action) => (action.startTool === action.endTool ? [] : [action.endTool]));
  const tools = actions.map((action) => (action.startTool === 0 ? [] : [action.startTool]));
  const factWords = wordsFor(factCount);
  return {
    needs: pack(needs),
    gives: pack(gives),
    needers: invert(needs, factCount),
    givers: invert(gives, factCount),
    users: invert(tools, toolCount + 1),
    bringers: invert(brings, toolCount + 1),
    needBits: bitRows(needs, factWords),
    giveBits: bitRows(gives, factWords),
  };
};

/** How does a compiled problem lie in the search's arrays? Cost: linear, but for cubic work in the number of tools. */
export const layOut = (problem: CompiledProblem): SearchSpace => {
  const { actions, factCount, toolCount } = problem;
  const { movable, removable } = freedoms(problem);
  const related = relations(problem);
  const repeatPickup = leastPickup(problem, 1);
  for (const action of actions) if (action.startTool !== action.endTool) repeatPickup[action.endTool] = 0;
  return {
    ...related,
    factCount,
    toolCount,
    actionCount: actions.length,
    factWords: wordsFor(factCount),
    actionWords: wordsFor(actions.length),
    cost: Float64Array.from(actions, (action) => action.cost),
    startTool: Int32Array.from(actions, (action) => action.startTool),
    endTool: Int32Array.from(actions, (action) => action.endTool),
    target: Int32Array.from(problem.target),
    changeover: Float64Array.from(problem.changeover),
    movable,
    removable,
    bridges: Int32Array.from(actions.keys()).filter((index) => removable[index] === 0),
    laterPickup: leastPickup(problem, 1),
    repeatPickup,
    anyPickup: leastPickup(problem, 0),
    rivals: rivalsOf(actions, movable, related.givers),
  };
};
