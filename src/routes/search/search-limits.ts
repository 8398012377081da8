/** When must a search stop without a proof? The clock is the caller's. */
export interface SearchLimits {
  /** States taken up at most. */
  readonly nodes: number;
  /** Milliseconds at most, by `now`, for the whole question. */
  readonly milliseconds?: number;
  readonly now?: () => number;
  /** The moment, by `now`, at which to stop. */
  readonly until?: number;
}

/** States taken up at most where the caller names no limit: a few seconds' work. */
export const DEFAULT_LIMITS: SearchLimits = { nodes: 1_000_000 };

/** The same limits with the moment to stop fixed now, so that several searches for one question share it. */
export const startedLimits = (limits: SearchLimits): SearchLimits =>
  limits.until !== undefined || limits.milliseconds === undefined || limits.now === undefined
    ? limits
    : { ...limits, until: limits.now() + limits.milliseconds };

/** Is the time up? Never without a clock and a moment. */
export const isTimeUp = ({ now, until }: SearchLimits): boolean =>
  now !== undefined && until !== undefined && now() > until;
