import { join } from 'node:path';
import { invariant, UnfastenError } from '#quantity/unfasten-error';
import { type RubricReading, readRubric } from '#verdict/rubric/read-rubric';
import type { Rubric } from '#verdict/rubric/rubric-schema';
import { packageRoot } from './package-root.ts';
import { readGivenFile } from './read-given-file.ts';

/** The house rubric that ships with the package, below its root. */
const DEFAULT_RUBRIC = join('rubrics', 'quayside-general.yaml');

/** What does a rubric file say, with all its problems? Without a path the one that ships with the package, *Quayside general*. */
export const readRubricFile = (path: string | undefined): RubricReading => {
  const file = path ?? join(packageRoot(), DEFAULT_RUBRIC);
  return readRubric(readGivenFile(file, path ?? DEFAULT_RUBRIC));
};

/** The rubric of a file for a command that needs one. Throws a record error with the first problem when it must be mended. */
export const requireRubric = (path: string | undefined): Rubric => {
  const { rubric, problems } = readRubricFile(path);
  if (rubric) return rubric;
  const [first, ...others] = problems.filter(({ severity }) => severity === 'error');
  invariant(first !== undefined, 'a rubric that cannot be used has an error', path ?? DEFAULT_RUBRIC);
  const more = others.length > 0 ? ` There are ${others.length} more: run \`unfasten rubric\` with it.` : '';
  throw new UnfastenError('record', first.message, {
    where: `${first.file}:${first.line}:${first.column} ${first.path}`.trimEnd(),
    value: first.value,
    remedy: `${first.remedy}${more}`,
  });
};
