import { clearBit } from './bit-set.ts';
import type { ReducedState } from './reduced-state.ts';
import type { StateLandmarks } from './state-landmarks.ts';

/** A successor in the making: which action is done, and which actions of use are left to it (a bit set). */
export interface Move {
  readonly action: number;
  readonly useful: Int32Array;
}

/** What can be done now, by what it takes: movable with what is in hand, not movable with it, or another tool. */
interface Possible {
  readonly movable: number[];
  readonly fixed: number[];
  readonly byTool: readonly number[][];
}

const possibleActions = (state: ReducedState): Possible => {
  const { startTool, movable, toolCount } = state.space;
  const possible = {
    movable: [] as number[],
    fixed: [] as number[],
    byTool: Array.from({ length: toolCount + 1 }, () => [] as number[]),
  };
  for (const action of state.order.subarray(0, state.orderLength).toSorted()) {
    if (!state.isApplicable(action)) continue;
    const tool = startTool[action] as number;
    if (tool !== 0 && tool !== state.hand) possible.byTool[tool]?.push(action);
    else if (movable[action] === 1) possible.movable.push(action);
    else possible.fixed.push(action);
  }
  return possible;
};

/** One move a movable action, each without those before it; `useful` ends up without any of them. */
const nowOrNever = (actions: readonly number[], useful: Int32Array): Move[] =>
  actions.map((action) => {
    const move = { action, useful: useful.slice() };
    clearBit(useful, action);
    return move;
  });

/** Moves that take up one tool: which of its actions comes first. A forced one, where there is one, stands for all. */
const firstWithTool = (
  { state, landmarks, useful }: { state: ReducedState; landmarks: StateLandmarks; useful: Int32Array },
  actions: readonly number[],
): Move[] => {
  const isMovable = (action: number): boolean => state.space.movable[action] === 1;
  const forced = actions.find((action) => isMovable(action) && landmarks.isForced(action));
  if (forced !== undefined) return [{ action: forced, useful }];
  const left = useful.slice();
  const moves = nowOrNever(actions.filter(isMovable), left);
  return [...moves, ...actions.filter((action) => !isMovable(action)).map((action) => ({ action, useful: left }))];
};

/**
 * Which moves need be looked at from a simplified state with no forced action at hand? Each plan survives in one order:
 * what could be done with what is in hand is done now or never. Proof: docs/method/neutral-problem.md, "Now or never".
 */
export const canonicalMoves = (state: ReducedState, landmarks: StateLandmarks): Move[] => {
  const possible = possibleActions(state);
  const useful = state.useful.slice();
  const moves = nowOrNever(possible.movable, useful);
  for (const action of possible.fixed) moves.push({ action, useful });
  for (const actions of possible.byTool) moves.push(...firstWithTool({ state, landmarks, useful }, actions));
  return moves;
};
