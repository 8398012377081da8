import { invariant, UnfastenError } from '#quantity/unfasten-error';
import type { OpenVariable } from '#verdict/open/open-variable';
import { type GivenOdds, readOdds } from '#verdict/questions/read-odds';
import { readGivenFile } from './read-given-file.ts';

/**
 * Which odds does a file give for the answers of these open questions? Throws a record error with the first problem and the
 * number of the others when it must be mended.
 */
export const requireOdds = (path: string, open: ReadonlyMap<string, OpenVariable>): GivenOdds => {
  const { odds, problems } = readOdds(readGivenFile(path), open);
  if (odds) return odds;
  const [first, ...others] = problems.filter(({ severity }) => severity === 'error');
  invariant(first !== undefined, 'odds that cannot be used have an error', path);
  throw new UnfastenError('record', first.message, {
    where: `${first.file}:${first.line}:${first.column} ${first.path}`.trimEnd(),
    value: first.value,
    remedy: `${first.remedy}${others.length > 0 ? ` There are ${others.length} more problems.` : ''}`,
  });
};
