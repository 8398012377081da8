/** A tool of the neutral format: what taking it up costs [s], unless the changeover table says otherwise. */
export interface NeutralTool {
  readonly id: string;
  readonly pickupSeconds: number;
}

/** One action of the neutral format. `tool: null` is bare hands: whatever is held stays in the other hand. */
export interface NeutralAction {
  readonly id: string;
  readonly tool: string | null;
  readonly seconds: number;
  /** Facts that must all hold before. */
  readonly needs: readonly string[];
  /** Facts that hold from then on; a fact never goes away. */
  readonly gives: readonly string[];
}

/**
 * What does a route problem in the neutral format say? Format `unfasten/route-problem`, version 1: free the target at
 * least total seconds. A tool is taken up only to act. `changeover` rows `[from, to, seconds]` replace the pick-up
 * seconds of `to` for that pair of tools; `firstPickupFree` waives the first pick-up of the whole plan.
 */
export interface NeutralProblem {
  readonly format: 'unfasten/route-problem';
  readonly version: 1;
  readonly tools: readonly NeutralTool[];
  readonly actions: readonly NeutralAction[];
  readonly target: readonly string[];
  readonly firstPickupFree?: boolean;
  readonly changeover?: readonly (readonly [string, string, number])[];
}

/** How large may a route problem be? Larger ones are refused by name, before any work is done on them. */
export const NEUTRAL_LIMITS = {
  tools: 200,
  actions: 5_000,
  facts: 8_000,
  /** Needs and gives of all actions together. */
  references: 100_000,
  changeovers: 40_000,
  /** Longest id [characters]. */
  idLength: 200,
  /** Longest single duration [s]: a hundred days. */
  seconds: 8_640_000,
} as const;
