import type { z } from 'zod';
import { limitWords } from '../limit-words.ts';
import { limits } from '../limits.ts';
import { type PathSegment, type ProblemWords, problemAt, type UnplacedProblem } from '../problem.ts';
import { assessment } from '../schema/assessment.ts';
import { quantityText } from '../schema/basics.ts';
import { unknownNameRemedy } from '../suggest.ts';
import { collectIssues, type Issue, isMap } from './collect-issues.ts';
import { fieldNames, schemaAt } from './schema-at.ts';

/**
 * Where does the data break a schema (that of an assessment unless said), in plain words? All problems at once, each with a
 * remedy; past the limit on problems the last one says that the rest was not looked at.
 */
export const shapeProblems = (data: unknown, schema: z.ZodType = assessment): readonly UnplacedProblem[] => {
  const problems: UnplacedProblem[] = [];
  for (const issue of collectIssues(schema, data)) {
    problems.push(...issueProblems(issue, { data, schema }));
    if (problems.length >= limits.problems)
      return [...problems.slice(0, limits.problems), problemAt([], limitWords('problems'))];
  }
  return problems;
};

/** The data looked at and the schema it is held against. */
interface Looked {
  readonly data: unknown;
  readonly schema: z.ZodType;
}

const issueProblems = (issue: Issue, looked: Looked): readonly UnplacedProblem[] => {
  const path = issue.path.filter((segment) => typeof segment !== 'symbol');
  const value = valueAt(looked.data, path);
  switch (issue.code) {
    case 'unrecognized_keys':
      return issue.keys.slice(0, limits.problems).map((key) => unknownField(path, key, looked));
    case 'invalid_union':
      return unionProblems(issue, path, looked);
    case 'invalid_key':
      return [problemAt(path, { ...keyWords(issue, path, looked), at: 'key' })];
    case 'invalid_type':
      return [problemAt(path, typeWords(issue, path, looked))];
    case 'invalid_value':
      return [problemAt(path, { value, ...choiceWords(issue.values.map(String), value) })];
    default:
      return [problemAt(path, { value, kind: 'value', ...boundWords(issue) })];
  }
};

const valueAt = (data: unknown, path: readonly PathSegment[]): unknown => {
  let value = data;
  for (const segment of path) {
    if (typeof value !== 'object' || value === null || !Object.hasOwn(value, segment)) return undefined;
    value = (value as Record<PathSegment, unknown>)[segment];
  }
  return value;
};

const unknownField = (path: readonly PathSegment[], key: string, { schema }: Looked): UnplacedProblem => {
  const known = fieldNames(schemaAt(schema, path));
  const otherwise = known.length === 0 ? 'Remove it.' : `Remove it, or use one of: ${listed(known)}.`;
  return problemAt([...path, key], {
    at: 'key',
    value: key,
    kind: 'unknown-field',
    message: `there is no field "${key.slice(0, 80)}" here`,
    remedy: unknownNameRemedy(key, known, otherwise),
  });
};

const keyWords = (
  issue: z.core.$ZodIssueInvalidKey,
  path: readonly PathSegment[],
  { schema }: Looked,
): ProblemWords => {
  const key = String(path.at(-1));
  const known = fieldNames(schemaAt(schema, path.slice(0, -1)));
  const why = known.length > 0 ? 'this name is not one of those that may stand here' : reasonOf(issue.issues);
  const otherwise = known.length > 0 ? `Use one of: ${listed(known)}.` : 'Choose another id, such as "front-cover".';
  return { value: key, kind: 'value', message: why, remedy: unknownNameRemedy(key, known, otherwise) };
};

const reasonOf = (issues: readonly z.core.$ZodIssue[]): string => {
  const [first] = issues;
  if (first?.code === 'too_big') return `an id has at most ${first.maximum} characters`;
  return first && 'pattern' in first ? first.message : 'this word cannot be an id';
};

/** A union's branch that fits the value's kind speaks for it; where none does, every branch is named. */
const unionProblems = (
  issue: z.core.$ZodIssueInvalidUnion,
  path: readonly PathSegment[],
  looked: Looked,
): readonly UnplacedProblem[] => {
  const value = valueAt(looked.data, path);
  const fitting = issue.errors.find((errors) => !errors.some((error) => isOtherKind(error, value)));
  if (fitting) return fitting.flatMap((error) => issueProblems({ ...error, path: [...path, ...error.path] }, looked));
  const kinds = issue.errors.flatMap((errors) => errors.map(expectedOf)).filter(Boolean);
  const described = schemaAt(looked.schema, path)?.description;
  const expected = [...new Set(kinds)].join(' or ');
  const message = `${expected} is expected here, found ${kindOf(value)}`;
  return [
    problemAt(path, { value, kind: 'type', message, remedy: described ? `Write ${described}.` : `Write ${expected}.` }),
  ];
};

const isOtherKind = (error: z.core.$ZodIssue, value: unknown): boolean =>
  error.path.length === 0 && (error.code === 'invalid_type' || (error.code === 'invalid_value' && isMap(value)));

const expectedOf = (error: z.core.$ZodIssue): string => {
  if (error.code === 'invalid_type') return KINDS[error.expected] ?? error.expected;
  return error.code === 'invalid_value' ? listed(error.values.map((value) => JSON.stringify(value) ?? '')) : '';
};

const typeWords = (issue: z.core.$ZodIssueInvalidType, path: readonly PathSegment[], looked: Looked): ProblemWords => {
  const value = valueAt(looked.data, path);
  const expected = KINDS[issue.expected] ?? issue.expected;
  if (value === undefined && path.length > 0)
    return {
      message: `the field "${path.at(-1)}" is missing`,
      remedy: `Add it: ${expected} is expected.`,
      kind: 'missing-field',
    };
  if (value === null)
    return {
      value,
      message: `${expected} is expected here, found nothing`,
      remedy: 'Fill it in, or remove the line: a field that is left out means "not known".',
      kind: 'type',
    };
  const message = `${expected} is expected here, found ${kindOf(value)}`;
  return { value, message, remedy: typeRemedy(issue.expected, path, looked), kind: 'type' };
};

const typeRemedy = (expected: string, path: readonly PathSegment[], { data, schema }: Looked): string => {
  const value = valueAt(data, path);
  const quotable = expected === 'string' && typeof value !== 'object';
  if (quotable && isQuantity(schemaAt(schema, path)))
    return `Write the number with its unit, such as "${String(value)} g".`;
  return quotable ? `Put it in quotes: "${String(value)}".` : `Write ${KINDS[expected] ?? expected}.`;
};

const isQuantity = (schema: z.ZodType | undefined): boolean => {
  for (let here: z.core.$ZodType | undefined = schema; here; here = here._zod.parent)
    if (here === quantityText) return true;
  return false;
};

const KINDS: Readonly<Record<string, string>> = {
  string: 'a text',
  number: 'a number',
  int: 'a whole number',
  boolean: 'true or false',
  object: 'a map of fields',
  record: 'a map from ids to items',
  array: 'a list',
  tuple: 'a list',
};

const kindOf = (value: unknown): string => {
  if (value === null || value === undefined) return 'nothing';
  if (Array.isArray(value)) return 'a list';
  return KINDS[typeof value] ?? typeof value;
};

const choiceWords = (choices: readonly string[], value: unknown): ProblemWords => {
  if (value === undefined)
    return { message: 'a field is missing', remedy: `Add it; write ${listed(choices)}.`, kind: 'missing-field' };
  return {
    message:
      choices.length === 1 ? `only "${choices[0]}" may stand here` : 'this is not one of the words that may stand here',
    remedy:
      choices.length === 1
        ? `Write ${choices[0]}, or leave the field out.`
        : unknownNameRemedy(String(value), choices, `Write one of: ${listed(choices)}.`),
    kind: 'value',
  };
};

const boundWords = (issue: Issue): { readonly message: string; readonly remedy: string } => {
  if (issue.code === 'too_big' || issue.code === 'too_small') return sizeWords(issue);
  if (issue.code === 'invalid_format') return formatWords(issue);
  const remedy = issue.code === 'custom' ? issue.params?.remedy : undefined;
  return {
    message: issue.message || 'this value cannot stand here',
    remedy: typeof remedy === 'string' ? remedy : 'Write another value.',
  };
};

const sizeWords = (issue: z.core.$ZodIssueTooBig | z.core.$ZodIssueTooSmall) => {
  const big = issue.code === 'too_big';
  const bound = big ? issue.maximum : issue.minimum;
  const word = big ? 'at most' : 'at least';
  const counted: Readonly<Record<string, string>> = { string: ' characters', array: ' items', tuple: ' items' };
  const unit = counted[issue.origin] ?? '';
  const message = unit ? `this has ${word} ${bound}${unit}` : `this is ${word} ${bound}`;
  const remedy = unit
    ? big
      ? 'Shorten it.'
      : 'Complete it, or leave the field out.'
    : `Write a number of ${word} ${bound}.`;
  return { message, remedy };
};

const formatWords = (issue: z.core.$ZodIssueInvalidStringFormat) => {
  if (issue.format === 'date') return { message: 'this is no calendar day', remedy: 'Write it as 2026-03-31.' };
  if (issue.format === 'datetime')
    return { message: 'this is no moment with its offset', remedy: 'Write it as 2026-03-31T09:30:00+02:00.' };
  return { message: issue.message, remedy: 'Write it in this form.' };
};

const SHOWN = 12;
const listed = (names: readonly string[]): string =>
  names.length <= SHOWN ? names.join(', ') : `${names.slice(0, SHOWN).join(', ')} and ${names.length - SHOWN} more`;
