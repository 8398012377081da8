import type { Explained } from '#quantity/explained';
import { UnfastenError } from '#quantity/unfasten-error';
import { closestName } from '#record/suggest';
import type { IndexBasis } from '#verdict/index-bases';

/** One figure that was asked for, with its whole path: the basis, then ids down the tree. */
export interface NamedFigure {
  readonly path: string;
  readonly node: Explained;
}

type BasisTree = Pick<IndexBasis, 'basis' | 'tree'>;

/**
 * Which figures does a path name? Ids between `/` or `.`, the basis first; without a basis, the figure on every basis that has
 * it, in the order of the bases. An exact path goes first; else the figures nearest the top that lie under all the ids named,
 * in any order, so that `battery/SDD` and `parts.battery.steps` are understood. Throws with the path that was probably meant.
 */
export const namedFigures = (bases: readonly BasisTree[], figure: string): readonly NamedFigure[] => {
  const asked = figure.split(/[/.]/).filter(Boolean);
  const basis = bases.find((candidate) => candidate.basis === asked[0]);
  const ids = (basis ? asked.slice(1) : asked).filter((id, index) => index > 0 || (id !== 'R' && id !== 'parts'));
  if (!basis && asked.length === 0) throw unknownFigure(bases, figure, asked);
  const found = (basis ? [basis] : bases).flatMap((candidate) => figuresUnder(candidate, ids));
  if (found.length === 0) throw unknownFigure(basis ? [basis] : bases, figure, asked);
  return found;
};

const figuresUnder = ({ basis, tree }: BasisTree, ids: readonly string[]): readonly NamedFigure[] => {
  const all = allFigures(tree, basis);
  const exact = all.find(({ path }) => path === [basis, ...ids].join('/'));
  if (exact) return [exact];
  const fitting = all.filter(({ path, node }) => {
    const there = path.split('/').slice(1);
    return ids.includes(node.id) && ids.every((id) => there.includes(id));
  });
  const depths = fitting.map(({ path }) => path.split('/').length);
  return fitting.filter((_, index) => depths[index] === Math.min(...depths));
};

const allFigures = (node: Explained, path: string): readonly NamedFigure[] => [
  { path, node },
  ...node.children.flatMap((child) => allFigures(child, `${path}/${child.id}`)),
];

/** The id that stands nowhere is replaced by the nearest that does; what else can be asked for is listed. */
const unknownFigure = (bases: readonly BasisTree[], figure: string, asked: readonly string[]): UnfastenError => {
  const names = bases.map(({ basis }) => basis);
  const paths = bases.flatMap(({ basis, tree }) => allFigures(tree, basis).map(({ path }) => path));
  const known = new Set(['parts', 'R', ...paths.flatMap((path) => path.split('/'))]);
  const stray = asked.find((id) => !known.has(id));
  const near = stray === undefined ? undefined : closestName(stray, known);
  const meant = near ? asked.map((id) => (id === stray ? near : id)).join('/') : closestName(asked.join('/'), paths);
  const scores = [...new Set(bases.flatMap(({ tree }) => tree.children.map(({ id }) => id)))];
  const choice = `Bases: ${names.join(', ')}; scores below them: ${scores.join(', ')}.`;
  return new UnfastenError('usage', 'There is no such figure', {
    where: figure,
    value: stray ?? figure,
    remedy: meant ? `Did you mean "${meant}"? ${choice}` : choice,
  });
};
