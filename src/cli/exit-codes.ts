import { type ErrorFamily, isUnfastenError } from '#quantity/unfasten-error';

/** What does the exit code say? The same four answers for every command. */
export const exitCodes = {
  /** The question was answered; an unsolvable problem proved unsolvable is an answer. */
  fine: 0,
  /** The record or input file has problems, is out of scope, or is too large to treat. */
  recordHasProblems: 1,
  /** A command, option or argument does not exist, does not fit, or names no file. */
  usedWrongly: 2,
  /** Our bug. */
  ourBug: 3,
} as const;

/** One of the four exit codes. */
export type ExitCode = (typeof exitCodes)[keyof typeof exitCodes];

const codeByFamily: Readonly<Record<ErrorFamily, ExitCode>> = {
  'your-data': exitCodes.recordHasProblems,
  'too-large': exitCodes.recordHasProblems,
  'used-wrongly': exitCodes.usedWrongly,
  'our-bug': exitCodes.ourBug,
};

/** Which exit code does a thrown error earn? Anything not thrown on purpose is our bug. */
export function exitCodeOf(error: unknown): ExitCode {
  return isUnfastenError(error) ? codeByFamily[error.family] : exitCodes.ourBug;
}
