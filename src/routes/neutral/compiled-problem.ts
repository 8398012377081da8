/** An action as the search sees it. Tools are numbers from 1; 0 is bare hands. Costs are integer milliseconds. */
export interface CompiledAction {
  readonly id: string;
  /** Work with every inner changeover already in it [integer ms]. */
  readonly cost: number;
  /** Tool in hand when it starts; 0: any, and that one stays in hand if `endTool` is 0 too. */
  readonly startTool: number;
  /** Tool in hand when it ends; 0 only where `startTool` is 0. */
  readonly endTool: number;
  /** Fact numbers, without repeats. */
  readonly needs: readonly number[];
  readonly gives: readonly number[];
}

/**
 * What does the search work on? Numbers only, so that nothing can depend on names. Beside what the neutral format
 * says, an action may end with another tool in hand than it starts with: fused work such as "heat, then pry".
 */
export interface CompiledProblem {
  readonly factCount: number;
  readonly toolCount: number;
  readonly actions: readonly CompiledAction[];
  readonly target: readonly number[];
  /**
   * What going from one tool to another costs [integer ms]: row `from` (0: nothing in hand yet), column `to`, both up
   * to `toolCount`, row-major. The diagonal is zero.
   */
  readonly changeover: readonly number[];
}
