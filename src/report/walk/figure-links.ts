import type { Explained } from '#quantity/explained';
import { indexClasses } from '#schemes/eu-2023-1669/evaluate-index';
import type { Basis, Verdict } from '#verdict/verdict';
import { anchorOf } from '../html/anchor.ts';
import { html, type Markup } from '../html/markup.ts';

/** Links a figure shown anywhere in the report to its node in the explanation of that basis. */
export type FigureLink = (basis: Basis, path: readonly string[], shown: string) => Markup;

/** Which fragment does the explanation of a figure have? */
export function walkAnchor(basis: Basis, path: readonly string[]): string {
  return anchorOf('why', [basis, ...path].join('/'));
}

/**
 * How is a figure linked to its explanation? `path` names ids on the way down, outermost first, gaps allowed (`['SDD',
 * 'battery']`; the root's own id may stand first); a figure whose node the tree does not have is shown without a link.
 */
export function figureLinks(verdict: Verdict): FigureLink {
  const trees = new Map(verdict.bases.map(({ basis, tree }) => [basis, tree]));
  return (basis, path, shown) => {
    const tree = trees.get(basis);
    const found = tree === undefined ? undefined : (classPath(tree, path) ?? explainedPath(tree, path));
    if (found === undefined) return html`<span class="fig">${shown}</span>`;
    return html`<a class="fig" href="#${walkAnchor(basis, found)}">${shown}</a>`;
  };
}

/** The classes stand beside R, not below it. */
function classPath(tree: Explained, path: readonly string[]): readonly string[] | undefined {
  return path.length === 1 && indexClasses(tree).some(({ id }) => id === path[0]) ? path : undefined;
}

/**
 * Which ids lead from the root of an explanation to the node that a path with gaps names? Outermost first; the root's own id
 * may stand first; `undefined` where the tree has no such node.
 */
export function explainedPath(tree: Explained, path: readonly string[]): readonly string[] | undefined {
  return descend(tree, [], path[0] === tree.id ? path.slice(1) : path);
}

/** The ids from the root's children down to the node that ends a path with gaps, breadth first; undefined when none does. */
function descend(node: Explained, at: readonly string[], path: readonly string[]): readonly string[] | undefined {
  const [wanted, ...rest] = path;
  if (wanted === undefined) return at;
  let level: { node: Explained; at: readonly string[] }[] = [{ node, at }];
  while (level.length > 0) {
    const next = level.flatMap((entry) =>
      entry.node.children.map((child) => ({ node: child, at: [...entry.at, child.id] })),
    );
    const hit = next.find((entry) => entry.node.id === wanted);
    if (hit !== undefined) return descend(hit.node, hit.at, rest);
    level = next;
  }
  return undefined;
}
