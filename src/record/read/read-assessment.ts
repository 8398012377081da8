import type { Problem, UnplacedProblem } from '../problem.ts';
import type { Assessment } from '../schema/assessment.ts';
import { checkAssessment } from '../validate/check-assessment.ts';
import { Findings } from '../validate/findings.ts';
import { type DocumentFile, readDocument } from './read-document.ts';
import { shapeProblems } from './shape-problems.ts';

/** What a file holds: the assessment, when nothing in it must be mended, and every problem in the order of the text. */
export interface AssessmentReading {
  readonly assessment?: Assessment;
  readonly problems: readonly Problem[];
}

/**
 * What does an assessment file say, and what is wrong with it? Never throws for a file's content: whatever the bytes
 * are, the result is an assessment or located problems. `*.json` is read as JSON, everything else as YAML 1.2. With
 * warnings only, the assessment is there. Further checks (the replay of the log) may be handed in; they run on data
 * that fits the schema and goes in no circle. Cost: linear in the file.
 */
export const readAssessment = (
  file: DocumentFile,
  furtherChecks: readonly ((data: Assessment) => readonly UnplacedProblem[])[] = [],
): AssessmentReading => {
  const { data, problems } = readDocument(file, (parsed) => allChecks(parsed, furtherChecks));
  return data === undefined ? { problems } : { assessment: data as Assessment, problems };
};

const allChecks = (
  data: unknown,
  furtherChecks: readonly ((data: Assessment) => readonly UnplacedProblem[])[],
): readonly UnplacedProblem[] => {
  const shape = shapeProblems(data);
  const checked = checkAssessment(data);
  const unsafe = checked.some(({ kind }) => kind === 'cycle' || kind === 'limit');
  if (shape.length > 0 || unsafe) return [...shape, ...checked];
  const findings = new Findings();
  for (const check of furtherChecks)
    for (const problem of check(data as Assessment)) findings.add(problem.path, problem);
  return [...checked, ...findings.problems];
};
