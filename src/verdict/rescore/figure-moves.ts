import { listed } from '#quantity/counts';
import type { Assessment } from '#record/schema/assessment';
import { groundworkOf, type IndexBasis, indexBases, readingsOf } from '../index-bases.ts';
import { lettersOf } from '../letters.ts';
import { scopeVerdict } from '../scope-verdict.ts';

/** What a change did to the index on one basis, in words. */
export interface FigureMove {
  readonly basis: string;
  readonly before: string;
  readonly after: string;
}

/** Places of a record that no figure of the index rests on. */
const WITHOUT_FIGURES = /^(?:title|notes|evidence|invented|expectations|claims)(?:\/|$)/;

/** May a change that touches these places move a figure of the index? Paths as `collection/id/field`. */
export const mayMoveFigures = (touched: readonly string[]): boolean =>
  touched.some((path) => !WITHOUT_FIGURES.test(path) && !/^sessions\/[^/]+\/note$/.test(path));

/** Which figures of the index differ between two states of a record? R with its width and the classes, basis by basis. */
export const indexMoves = (before: Assessment, after: Assessment): readonly FigureMove[] => {
  const [from, to] = [figuresOf(before), figuresOf(after)];
  return [...new Set([...from.keys(), ...to.keys()])].flatMap((basis) => {
    const [old, now] = [from.get(basis) ?? 'nothing on this basis', to.get(basis) ?? 'nothing on this basis'];
    return old === now ? [] : [{ basis, before: old, after: now }];
  });
};

const figuresOf = (assessment: Assessment): ReadonlyMap<string, string> => {
  const scope = scopeVerdict(assessment);
  if (scope.inScope === false) return new Map([['scope', `out of scope (${scope.article})`]]);
  const readings = readingsOf(assessment);
  return new Map(
    indexBases(groundworkOf(assessment), readings).map((basis) => [
      basis.basis,
      `${widthOf(basis)}, class ${listed(lettersOf(basis, readings), 'or') || 'none'}${basis.mayBeNotScorable ? ', or not scorable' : ''}`,
    ]),
  );
};

const widthOf = ({ figures, low = figures, high = figures }: IndexBasis): string =>
  low.R === high.R ? `R ${low.R ?? 'open'}` : `R ${low.R ?? 'open'} to ${high.R ?? 'open'}`;
