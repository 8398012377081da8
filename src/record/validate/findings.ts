import { limits } from '../limits.ts';
import { type PathSegment, type ProblemWords, problemAt, type Severity, type UnplacedProblem } from '../problem.ts';

/**
 * The problems that the checks of one record have found so far. Past the limit on problems no more are kept, errors and
 * warnings counted apart, so that warnings cannot crowd out an error.
 */
export class Findings {
  private readonly bySeverity: Readonly<Record<Severity, UnplacedProblem[]>> = { error: [], warning: [] };

  add(path: readonly PathSegment[], words: ProblemWords): void {
    const kept = this.bySeverity[words.severity ?? 'error'];
    if (kept.length < limits.problems) kept.push(problemAt(path, words));
  }

  /** Everything kept; where a limit was met, the last problem says so. */
  get problems(): readonly UnplacedProblem[] {
    const { error, warning } = this.bySeverity;
    const more = [error, warning].filter((kept) => kept.length >= limits.problems);
    return [...error, ...warning, ...more.map(([first]) => moreThanKept(first?.severity ?? 'error'))];
  }
}

const moreThanKept = (severity: Severity): UnplacedProblem =>
  problemAt([], {
    severity,
    kind: 'limit',
    message: `there are more problems than are kept (limit problems: ${limits.problems})`,
    remedy: 'Mend these first, then check again.',
  });
