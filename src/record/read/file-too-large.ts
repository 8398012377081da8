import { limitWords } from '../limit-words.ts';
import type { Problem } from '../problem.ts';
import { placeProblems } from './place-problems.ts';

/** How is a file refused, before it is read, that is larger than a record may be? `bytes` is its size. */
export const fileTooLarge = (file: string, bytes: number): Problem => {
  const refused = { offset: 0, path: [], ...limitWords('fileBytes', bytes) };
  const [problem] = placeProblems({ file, text: '', locate: () => undefined }, [refused], []);
  if (!problem) throw new RangeError('a refused file has a problem');
  return problem;
};
