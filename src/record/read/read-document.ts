import { hasErrors, type Problem, type UnplacedProblem } from '../problem.ts';
import { decodeText } from './decode-text.ts';
import { parseJson, parseJsonClosely } from './parse-json.ts';
import { parseYaml } from './parse-yaml.ts';
import { type LocatableText, placeProblems } from './place-problems.ts';
import type { ParsedText } from './source-problem.ts';

/** The bytes of one document; the name says which language it is in and is shown in problems. */
export interface DocumentFile {
  readonly fileName: string;
  readonly bytes: Uint8Array;
}

/** What a document holds: its data, when nothing in it must be mended, and every problem in the order of the text. */
export interface DocumentReading {
  readonly data?: unknown;
  readonly problems: readonly Problem[];
}

/**
 * What does a document say, and what is wrong with it? Never throws for the content: whatever the bytes are, the result is
 * data or located problems. `*.json` is read as JSON, everything else as YAML 1.2. The checks run on whole data only.
 */
export const readDocument = (
  file: DocumentFile,
  checks: (data: unknown) => readonly UnplacedProblem[],
): DocumentReading => {
  const decoded = decodeText(file.bytes);
  if (decoded.text === undefined) {
    const text = new TextDecoder('utf-8').decode(file.bytes.subarray(0, PLACED_BYTES));
    return { problems: placeProblems({ file: file.fileName, text, locate: () => undefined }, [decoded.problem], []) };
  }
  const { parsed, source } = parseFile(file.fileName, decoded.text);
  const unplaced = parsed.complete ? checks(parsed.data) : [];
  const problems = placeProblems(source, parsed.problems, unplaced);
  return hasErrors(problems) ? { problems } : { data: parsed.data, problems };
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
