import { hasErrors, type Problem, type UnplacedProblem } from '../problem.ts';
import type { Assessment } from '../schema/assessment.ts';
import { checkAssessment } from '../validate/check-assessment.ts';
import { Findings } from '../validate/findings.ts';
import { decodeText } from './decode-text.ts';
import { parseJson, parseJsonClosely } from './parse-json.ts';
import { parseYaml } from './parse-yaml.ts';
import { type LocatableText, placeProblems } from './place-problems.ts';
import { shapeProblems } from './shape-problems.ts';
import type { ParsedText } from './source-problem.ts';

/** The bytes of one assessment file; the name says which language it is in and is shown in problems. */
export interface AssessmentFile {
  readonly fileName: string;
  readonly bytes: Uint8Array;
}

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
  file: AssessmentFile,
  furtherChecks: readonly ((data: Assessment) => readonly UnplacedProblem[])[] = [],
): AssessmentReading => {
  const decoded = decodeText(file.bytes);
  if (decoded.text === undefined) {
    const text = new TextDecoder('utf-8').decode(file.bytes.subarray(0, PLACED_BYTES));
    return { problems: placeProblems({ file: file.fileName, text, locate: () => undefined }, [decoded.problem], []) };
  }
  const { parsed, source } = parseFile(file.fileName, decoded.text);
  const unplaced = parsed.complete ? allChecks(parsed.data, furtherChecks) : [];
  const problems = placeProblems(source, parsed.problems, unplaced);
  return hasErrors(problems) ? { problems } : { assessment: parsed.data as Assessment, problems };
};

/** How much of an unreadable file is decoded leniently, to say on which line the reading stopped [bytes]. */
const PLACED_BYTES = 64 * 1024 * 1024;

const parseFile = (file: string, text: string): { parsed: ParsedText; source: LocatableText } => {
  if (file.toLowerCase().endsWith('.json')) {
    const locate = (wanted: Parameters<LocatableText['locate']>[0]): void => void parseJsonClosely(text, wanted);
    return { parsed: parseJson(text), source: { file, text, locate } };
  }
  const parsed = parseYaml(text);
  return { parsed, source: { file, text, locate: parsed.locate } };
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
