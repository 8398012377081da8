import type { z } from 'zod';
import { hasErrors, type Problem, type UnplacedProblem } from '#record/problem';
import { isMap } from '#record/read/collect-issues';
import { type DocumentFile, readDocument } from '#record/read/read-document';
import { shapeProblems } from '#record/read/shape-problems';
import { checkRubric } from './check-rubric.ts';
import { cap, criterion, type Rubric, rubric } from './rubric-schema.ts';

/** What a rubric document holds: the rubric, when nothing in it must be mended, and every problem in the order of the text. */
export interface RubricReading {
  readonly rubric?: Rubric;
  readonly problems: readonly Problem[];
}

/**
 * What does a house rubric say, and what is wrong with it? Never throws for the content: the result is a rubric or all
 * problems at once, each with line, column, path, value and remedy. `*.json` is read as JSON, everything else as YAML 1.2.
 */
export const readRubric = (file: DocumentFile): RubricReading => {
  const { data, problems } = readDocument(file, (parsed) => {
    const shape = shapeProblems(parsed, rubric);
    return hasErrors(shape) ? [...shape, ...checkFitting(parsed)] : checkRubric(parsed as Rubric);
  });
  return data === undefined ? { problems } : { rubric: data as Rubric, problems };
};

/** What is wrong besides the shape with those criteria and caps whose own shape is right? */
const checkFitting = (parsed: unknown): readonly UnplacedProblem[] => {
  if (!isMap(parsed)) return [];
  const criteria = fitting(parsed.criteria, criterion);
  if (Object.keys(criteria).length === 0) return [];
  return checkRubric({ criteria, caps: fitting(parsed.caps, cap) } as Rubric);
};

const fitting = (items: unknown, schema: z.ZodType): Readonly<Record<string, unknown>> =>
  isMap(items) ? Object.fromEntries(Object.entries(items).filter(([, item]) => schema.safeParse(item).success)) : {};
