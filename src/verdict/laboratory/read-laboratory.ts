import { hasErrors, type Problem, problemAt, type UnplacedProblem } from '#record/problem';
import { type DocumentFile, readDocument } from '#record/read/read-document';
import { shapeProblems } from '#record/read/shape-problems';
import { unknownNameRemedy } from '#record/suggest';
import { resolveInterpretations } from '#schemes/eu-2023-1669/interpretations';
import { type Laboratory, laboratory } from './laboratory-schema.ts';

/** What a laboratory's document holds: its readings, when nothing in it must be mended, and every problem in order. */
export interface LaboratoryReading {
  readonly laboratory?: Laboratory;
  readonly problems: readonly Problem[];
}

/**
 * How does a laboratory read the rules that leave room, and what is wrong with its document? Never throws for the content: the
 * result is the readings or all problems at once, each with line, column, path, value and remedy. An unknown interpretation or
 * reading is an error: the default would otherwise hold unseen.
 */
export const readLaboratory = (file: DocumentFile): LaboratoryReading => {
  const { data, problems } = readDocument(file, (parsed) => {
    const shape = shapeProblems(parsed, laboratory);
    return hasErrors(shape) ? shape : readingProblems(parsed as Laboratory);
  });
  return data === undefined ? { problems } : { laboratory: data as Laboratory, problems };
};

const readingProblems = ({ interpretations }: Laboratory): readonly UnplacedProblem[] => {
  const chosen = Object.fromEntries(Object.entries(interpretations).map(([id, { reading }]) => [id, reading]));
  return resolveInterpretations(chosen).problems.map(({ id, value, problem, allowed }) => {
    const ofValue = problem === 'unknown-value';
    const wrong = ofValue ? value : id;
    return problemAt(['interpretations', id, ...(ofValue ? ['reading'] : [])], {
      value: wrong,
      kind: 'value',
      at: ofValue ? 'value' : 'key',
      message: ofValue
        ? 'this interpretation has no such reading'
        : 'there is no such switch among the interpretations',
      remedy: unknownNameRemedy(wrong, allowed, `Choose one of: ${allowed.join(', ')}.`),
    });
  });
};
