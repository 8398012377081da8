/** How is a set of tools written, whatever order they were named in? Sorted, each once; not known is the empty set. */
export const toolSet = (tools: readonly string[] | undefined): string[] => [...new Set(tools ?? [])].sort();

/** Do two namings of tools mean the same set? */
export const sameTools = (a: readonly string[] | undefined, b: readonly string[] | undefined): boolean =>
  toolSet(a).join('\n') === toolSet(b).join('\n');
