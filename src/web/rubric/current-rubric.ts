import { type RubricItem, readEdition, readEditions } from './rubric-client.ts';
import { SHIPPED_RUBRIC } from './shipped-rubric.ts';

/** The rubric in use, and every edition that is kept. */
export interface CurrentRubric {
  readonly text: string;
  readonly editions: readonly RubricItem[];
}

/** Which rubric is in use? The edition kept last; before any is kept, the one that ships. Throws `NotAnswered`. */
export const readCurrentRubric = async (): Promise<CurrentRubric> => {
  const editions = await readEditions();
  const [last] = editions;
  return { editions, text: last ? await readEdition(last) : SHIPPED_RUBRIC };
};
