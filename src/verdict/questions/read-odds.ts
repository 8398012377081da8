import { z } from 'zod';
import { dividedBy, plus, type Rational, rational } from '#quantity/rational';
import {
  hasErrors,
  type PathSegment,
  type Problem,
  problemAt,
  type Severity,
  type UnplacedProblem,
} from '#record/problem';
import { type DocumentFile, readDocument } from '#record/read/read-document';
import { shapeProblems } from '#record/read/shape-problems';
import { text } from '#record/schema/basics';
import { unknownNameRemedy } from '#record/suggest';
import type { OpenAnswer } from '../open/open-variable.ts';
import { type ExactText, exactText, exactValue } from '../rubric/exact-text.ts';
import type { QuestionOdds } from './letter-outcomes.ts';

/** Odds in any measure: only their shares of the question's sum count; a fraction is written as text. */
const weight = z.union([
  z.number().min(0).max(1e12),
  z.string().regex(/^\d{1,12}(\.\d{1,12})?(\/[1-9]\d{0,11})?$/, 'a fraction is written as "1/3"'),
]);

const oddsDocument = z.strictObject({
  format: z.literal('unfasten/odds'),
  version: z.literal(1),
  by: text.describe('whose odds they are'),
  reason: text.optional().describe('what they rest on'),
  questions: z.record(z.string().max(500), z.record(z.string().max(500), weight)),
});

type OddsDocument = z.infer<typeof oddsDocument>;

/** Odds as somebody gives them for questions of one record. */
export interface GivenOdds {
  readonly by: string;
  readonly reason?: string;
  /** Chances by question and answer, exact; those of one question sum to 1. */
  readonly questions: QuestionOdds;
  /** The weights as they were given, in the measure in which they were. */
  readonly weights: Readonly<Record<string, Readonly<Record<string, ExactText>>>>;
}

/** Questions that odds may be given for, by id, with the answers that need a weight. */
export type OpenAnswers = ReadonlyMap<string, { readonly answers: readonly Pick<OpenAnswer, 'id'>[] }>;

/** How strictly are odds read? */
export interface ReadOddsOptions {
  /**
   * What a question that is not open is: an error in a file that was written for the record as it stands, a warning in odds that
   * are kept while the record goes on and its questions are answered. Its odds are left aside then.
   */
  readonly notOpen?: Severity;
}

/** What a document of odds holds: the odds, when nothing in it must be mended, and every problem in the order of the text. */
export interface OddsReading {
  readonly odds?: GivenOdds;
  readonly problems: readonly Problem[];
}

/**
 * Which odds does a document give for the answers of open questions, and what is wrong with it? Every listed answer of a
 * question needs its weight, 0 where it is ruled out, so that nothing is impossible by an oversight. `open` are the questions
 * that may be named; odds of another are never used. Never throws for the content; problems carry line, column, path, value and remedy.
 */
export const readOdds = (
  file: DocumentFile,
  open: OpenAnswers,
  { notOpen = 'error' }: ReadOddsOptions = {},
): OddsReading => {
  const { data, problems } = readDocument(file, (parsed) => {
    const shape = shapeProblems(parsed, oddsDocument);
    return hasErrors(shape) ? shape : checkOdds(parsed as OddsDocument, open, notOpen);
  });
  if (data === undefined) return { problems };
  const { by, reason, questions } = data as OddsDocument;
  const asked = Object.entries(questions).filter(([id]) => open.has(id));
  const odds = {
    by,
    ...(reason === undefined ? {} : { reason }),
    questions: Object.fromEntries(asked.map(([id, weights]) => [id, sharesOf(weights)])),
    weights: Object.fromEntries(asked.map(([id, weights]) => [id, exactly(weights)])),
  };
  return { odds, problems };
};

type Weights = OddsDocument['questions'][string];

const sumOf = (weights: Weights): Rational =>
  Object.values(weights).reduce<Rational>((sum, share) => plus(sum, exactValue(share)), rational(0n));

const sharesOf = (weights: Weights): Readonly<Record<string, Rational>> =>
  Object.fromEntries(Object.entries(weights).map(([id, one]) => [id, dividedBy(exactValue(one), sumOf(weights))]));

const exactly = (weights: Weights): Readonly<Record<string, ExactText>> =>
  Object.fromEntries(Object.entries(weights).map(([id, one]) => [id, exactText(exactValue(one))]));

const checkOdds = ({ questions }: OddsDocument, open: OpenAnswers, notOpen: Severity): readonly UnplacedProblem[] =>
  Object.entries(questions).flatMap(([id, weights]) => {
    const path = ['questions', id];
    const variable = open.get(id);
    if (variable) return checkAnswers(weights, variable, path);
    const known = [...open.keys()];
    const otherwise = 'Take one that `unfasten questions` lists for this record and basis.';
    return [
      problemAt(path, {
        value: id,
        at: 'key',
        kind: 'unknown-reference',
        severity: notOpen,
        message: 'this is no open question of the record on this basis',
        remedy: unknownNameRemedy(id, known, otherwise),
      }),
    ];
  });

const checkAnswers = (
  weights: Weights,
  { answers }: { readonly answers: readonly Pick<OpenAnswer, 'id'>[] },
  path: readonly PathSegment[],
): readonly UnplacedProblem[] => {
  const known = answers.map(({ id }) => id);
  const unknown = Object.keys(weights).filter((id) => !known.includes(id));
  const missing = known.filter((id) => weights[id] === undefined);
  const problems = unknown.map((id) =>
    problemAt([...path, id], {
      value: id,
      at: 'key',
      kind: 'unknown-reference',
      message: 'this is none of the answers of the question',
      remedy: unknownNameRemedy(id, known, `Use its answers: ${known.join(', ')}.`),
    }),
  );
  if (missing.length > 0)
    problems.push(
      problemAt(path, {
        kind: 'missing-field',
        message: `the question has other answers that are given no weight: ${missing.join(', ')}`,
        remedy: 'Give each of them one, 0 where it is ruled out.',
      }),
    );
  else if (unknown.length === 0 && sumOf(weights).numerator === 0n)
    problems.push(
      problemAt(path, {
        kind: 'value',
        message: 'every answer of the question is given the weight 0',
        remedy: 'Give at least one answer a weight above 0.',
      }),
    );
  return problems;
};
