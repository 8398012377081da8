import type { UnplacedProblem } from '../problem.ts';

/** Placeholder. */
export const checkAssessment = (_data: unknown): readonly UnplacedProblem[] => [];
