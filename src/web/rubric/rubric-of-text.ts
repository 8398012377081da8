import { type RubricReading, readRubric } from '#verdict/rubric/read-rubric';

/** What does a text in the editor say, with every problem and its place? */
export const rubricOfText = (text: string): RubricReading =>
  readRubric({ fileName: 'rubric.yaml', bytes: new TextEncoder().encode(text) });
