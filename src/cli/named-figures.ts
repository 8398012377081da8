import type { Explained } from '#quantity/explained';
import { UnfastenError } from '#quantity/unfasten-error';
import { closestName } from '#record/suggest';

/** One figure that was asked for, with its whole path: the root (a basis, `swaps`, `rubric`), then ids down the tree. */
export interface NamedFigure {
  readonly path: string;
  readonly node: Explained;
}

/** An explanation that figures are looked for in, under the name of its root. */
export interface FigureTree {
  readonly root: string;
  readonly tree: Explained;
  /** Figures that follow from the tree as a whole, such as the class from R: found under the root too. */
  readonly beside?: readonly Explained[];
}

/** Where figures are looked for: the bases of the index, and what is worked out only where it is needed. */
export interface FigurePlaces {
  readonly bases: readonly FigureTree[];
  /** Every other tree, by the name of its root. */
  readonly others: Readonly<Record<string, () => Explained | undefined>>;
  /** Names besides the figures, of things that are explained without a tree. */
  readonly more: () => readonly string[];
}

/** A path may say dots for slashes; a version number is one id with dots in it, and taken apart alike on both sides. */
const segmentsOf = (path: string): readonly string[] => path.split(/[/.]/).filter(Boolean);

/**
 * Which figures does a path name? Ids between `/` or `.`, the root first; without a root, the figure on every basis that has
 * it, in the order of the bases, and where none has it, in the other trees. An exact path goes first; else the figures nearest the top
 * that lie under all the ids named, in any order, so that `battery/SDD` and `parts.battery.steps` are understood. Throws with the path
 * that was probably meant.
 */
export const namedFigures = (places: FigurePlaces, figure: string): readonly NamedFigure[] => {
  const asked = segmentsOf(figure);
  const rooted = rootedTree(places, asked[0]);
  const ids = (rooted ? asked.slice(1) : asked).filter((id, index) => index > 0 || (id !== 'R' && id !== 'parts'));
  const within = (trees: readonly FigureTree[]) => trees.flatMap((tree) => figuresUnder(tree, ids));
  if (!rooted && asked.length === 0) throw unknownFigure(places, figure, asked);
  const found = within(rooted ? [rooted] : places.bases);
  const further = found.length > 0 || rooted ? [] : within(otherTrees(places));
  if (found.length + further.length === 0) throw unknownFigure(places, figure, asked);
  return [...found, ...further];
};

const rootedTree = ({ bases, others }: FigurePlaces, root: string | undefined): FigureTree | undefined => {
  const basis = bases.find((candidate) => candidate.root === root);
  if (basis || root === undefined || !Object.hasOwn(others, root)) return basis;
  const tree = others[root]?.();
  return tree && { root, tree };
};

const otherTrees = ({ others }: FigurePlaces): readonly FigureTree[] =>
  Object.entries(others).flatMap(([root, find]) => {
    const tree = find();
    return tree ? [{ root, tree }] : [];
  });

const figuresOf = ({ root, tree, beside = [] }: FigureTree): readonly NamedFigure[] => [
  ...allFigures(tree, root),
  ...beside.flatMap((node) => allFigures(node, `${root}/${node.id}`)),
];

const figuresUnder = (place: FigureTree, ids: readonly string[]): readonly NamedFigure[] => {
  const { root } = place;
  const all = figuresOf(place);
  const exact = all.find(({ path }) => segmentsOf(path).join('/') === [root, ...ids].join('/'));
  if (exact) return [exact];
  const fitting = all.filter(({ path, node }) => {
    const there = segmentsOf(path).slice(1);
    return segmentsOf(node.id).every((id) => ids.includes(id)) && ids.every((id) => there.includes(id));
  });
  const depths = fitting.map(({ path }) => path.split('/').length);
  return fitting.filter((_, index) => depths[index] === Math.min(...depths));
};

const allFigures = (node: Explained, path: string): readonly NamedFigure[] => [
  { path, node },
  ...node.children.flatMap((child) => allFigures(child, `${path}/${child.id}`)),
];

/** The id that stands nowhere is replaced by the nearest that does; what else can be asked for is listed. */
const unknownFigure = (places: FigurePlaces, figure: string, asked: readonly string[]): UnfastenError => {
  const rooted = rootedTree(places, asked[0]);
  const trees = rooted ? [rooted] : [...places.bases, ...otherTrees(places)];
  const paths = trees.flatMap((place) => figuresOf(place).map(({ path }) => path));
  const known = new Set(['parts', 'R', ...paths.flatMap(segmentsOf), ...(rooted ? [] : places.more())]);
  const stray = asked.find((id) => !known.has(id));
  const near = stray === undefined ? undefined : closestName(stray, known);
  const meant = near ? asked.map((id) => (id === stray ? near : id)).join('/') : closestName(asked.join('/'), paths);
  const choice = choiceWords(places, rooted);
  return new UnfastenError('usage', 'There is no such figure', {
    where: figure,
    value: stray ?? figure,
    remedy: meant ? `Did you mean "${meant}"? ${choice}` : choice,
  });
};

const choiceWords = (places: FigurePlaces, rooted: FigureTree | undefined): string => {
  const { bases } = places;
  const isBasis = rooted === undefined || bases.some(({ root }) => root === rooted.root);
  if (!isBasis) return `Below ${rooted.root}: ${rooted.tree.children.map(({ id }) => id).join(', ')}.`;
  const scores = [...new Set(bases.flatMap(({ tree }) => tree.children.map(({ id }) => id)))];
  const index = `Bases: ${bases.map(({ root }) => root).join(', ')}; scores below them: ${scores.join(', ')}.`;
  const others = otherTrees(places).map(({ root, tree }) => `${root}/${tree.children[0]?.id ?? ''}`);
  const besides = [...others, ...places.more().slice(0, 1)].join(', ');
  const further = besides === '' ? '' : ` Besides, for instance: ${besides}.`;
  return bases.length === 0 ? further.trim() : `${index}${further}`;
};
