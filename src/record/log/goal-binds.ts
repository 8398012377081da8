import type { OffMark } from './specimen-state.ts';

/**
 * Does what an entry took off bind what later came, or was tried, for these goals? Not when both had goals and no goal is
 * shared, unless it was done for the very thing that came. Without goals on either side it binds.
 */
export const binds = (mark: Pick<OffMark, 'goals'>, self: string, goals: readonly string[] | undefined): boolean =>
  mark.goals === undefined || goals === undefined || mark.goals.some((goal) => goal === self || goals.includes(goal));
