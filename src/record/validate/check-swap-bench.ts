import type { PathSegment } from '../problem.ts';
import { unknownNameRemedy } from '../suggest.ts';
import type { LinkContext } from './check-links.ts';
import { isPlainMap, itemsOf, type PlainMap, textOf, textsOf } from './plain.ts';

/** Does what is at hand for swaps hold together: nothing listed twice, donors out of parts the product has? */
export const checkSwapBench = (context: LinkContext): void => {
  const bench = context.data.swapBench;
  if (!isPlainMap(bench)) return;
  for (const list of ['firmware', 'hosts']) checkOnce(['swapBench', list], bench[list], context);
  for (const [id, part] of itemsOf(bench.parts)) {
    const path = ['swapBench', 'parts', id];
    if (!context.known.has('part', id)) context.findings.add(path, unknownPart(id, context));
    checkPart(path, part, context);
  }
};

const unknownPart = (id: string, { known }: LinkContext) => ({
  value: id,
  kind: 'unknown-reference' as const,
  message: `there is no part "${id}"`,
  remedy: unknownNameRemedy(id, known.names('part'), 'Describe it first, or name one that is described.'),
  at: 'key' as const,
});

const checkPart = (path: readonly PathSegment[], part: PlainMap, context: LinkContext): void => {
  checkOnce([...path, 'checks'], part.checks, context);
  const seen = new Set<string>();
  for (const [index, item] of (Array.isArray(part.connectors) ? part.connectors : []).entries()) {
    const fastener = isPlainMap(item) ? textOf(item.fastener) : undefined;
    if (fastener !== undefined && seen.has(fastener))
      context.findings.add([...path, 'connectors', index, 'fastener'], twice(fastener));
    if (fastener !== undefined) seen.add(fastener);
  }
  const weights = isPlainMap(part.odds) ? Object.values(part.odds) : [];
  if (weights.length > 0 && weights.every((weight) => weight === 0))
    context.findings.add([...path, 'odds'], {
      message: 'no explanation has any weight',
      remedy: 'Give at least one a weight above 0, or leave the odds out.',
      at: 'key',
    });
};

const checkOnce = (path: readonly PathSegment[], list: unknown, { findings }: LinkContext): void => {
  const seen = new Set<string>();
  for (const [index, name] of textsOf(list).entries()) {
    if (seen.has(name)) findings.add([...path, index], twice(name));
    seen.add(name);
  }
};

const twice = (name: string) => ({
  value: name,
  message: `"${name}" is listed twice`,
  remedy: 'Take one of the two out.',
});
