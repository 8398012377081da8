import { showValue } from '#quantity/unfasten-error';
import { type Problem, showPath, type UnplacedProblem } from '../problem.ts';
import { lineColumnOf, lineStarts, offsetOf, type WantedNode, wantedTree } from './position-index.ts';
import type { SourceProblem } from './source-problem.ts';

/** A text that can be asked where paths stand in it. */
export interface LocatableText {
  readonly file: string;
  readonly text: string;
  /** Fills in the offsets of the wanted paths. */
  locate(wanted: WantedNode): void;
}

/**
 * Where in the file do the problems stand? In the order of the text, whatever order they were found in; what is said of
 * a value that the text itself already spoils is left out, and so is
 * what seems to be missing where the syntax is at fault: it may be what could not be read.
 */
export const placeProblems = (
  source: LocatableText,
  found: readonly SourceProblem[],
  unplaced: readonly UnplacedProblem[],
): readonly Problem[] => {
  if (found.length === 0 && unplaced.length === 0) return [];
  const spoilt = new Set(found.filter(({ path }) => path.length > 0).map(({ path }) => showPath(path)));
  const isBroken = found.some(({ kind }) => kind === 'syntax');
  const mayBeUnread = ({ kind, path }: UnplacedProblem): boolean => kind === 'missing-field' || path.length === 0;
  const rest = unplaced.filter((one) => !spoilt.has(showPath(one.path)) && !(isBroken && mayBeUnread(one)));
  const wanted = wantedTree(rest.map(({ path }) => path));
  if (rest.length > 0) source.locate(wanted);
  const starts = lineStarts(source.text);
  const placed = [
    ...found.map((problem) => ({ offset: problem.offset, problem: { ...problem, severity: 'error' as const } })),
    ...rest.map((problem) => ({ offset: offsetOf(wanted, problem.path, problem.at), problem })),
  ];
  placed.sort((a, b) => a.offset - b.offset);
  return placed.map(({ offset, problem }) => ({
    file: source.file,
    ...lineColumnOf(starts, offset),
    path: showPath(problem.path),
    ...(problem.value === undefined ? {} : { value: showValue(problem.value) }),
    message: problem.message,
    remedy: problem.remedy,
    kind: problem.kind,
    severity: problem.severity,
  }));
};
