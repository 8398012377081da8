/** One line of the tree as the keys see it. */
export interface WalkLine {
  readonly depth: number;
  readonly isOpen: boolean;
  /** True where there is something to open. */
  readonly opens: boolean;
}

/** What a key does: go to another line, or open or fold this one. */
export type WalkMove = { readonly to: number } | { readonly toggle: true };

/**
 * What does a key do at one of the lines in sight? Up and down go along them, Home and End to the ends; right opens a line or
 * goes into it, left folds it or goes out to the line above it (ARIA Authoring Practices, tree view). Others: `undefined`.
 */
export const walkMove = (key: string, lines: readonly WalkLine[], at: number): WalkMove | undefined => {
  const line = lines[at];
  if (!line) return undefined;
  const last = lines.length - 1;
  if (key === 'ArrowDown') return { to: Math.min(at + 1, last) };
  if (key === 'ArrowUp') return { to: Math.max(at - 1, 0) };
  if (key === 'Home') return { to: 0 };
  if (key === 'End') return { to: last };
  if (key === 'ArrowRight') {
    if (line.opens && !line.isOpen) return { toggle: true };
    return (lines[at + 1]?.depth ?? 0) > line.depth ? { to: at + 1 } : undefined;
  }
  if (key === 'ArrowLeft') {
    if (line.opens && line.isOpen) return { toggle: true };
    const above = lines.slice(0, at).findLastIndex(({ depth }) => depth < line.depth);
    return above < 0 ? undefined : { to: above };
  }
  return undefined;
};
