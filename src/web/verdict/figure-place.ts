import { type Explained, findExplained } from '#quantity/explained';
import { explainedPath } from '#report/walk/figure-links';
import type { Basis } from '#verdict/verdict';

/** A figure of the screen: on which basis it stands, where in the explanation, and what it is called. */
export interface FigurePlace {
  readonly basis: Basis;
  readonly path: readonly string[];
  readonly name: string;
}

/**
 * Where in an explanation does a count of steps stand? Below the points of its role, at the count itself where there is one
 * such part; of several the points say which was taken, so they come first.
 */
export const stepsPath = (tree: Explained, path: readonly string[]): readonly string[] | undefined => {
  const points = explainedPath(tree, path);
  const node = points && findExplained(tree, points.join('/'));
  return (node?.children.length === 1 ? explainedPath(tree, [...path, 'steps']) : undefined) ?? points;
};
