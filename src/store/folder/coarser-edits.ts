import { type Keys, pointerOf, valueAt } from '#record/patch/json-pointer';
import { type DocumentEdit, isMap } from './document-edits.ts';

/** What decides how far an edit must reach. */
export interface EditSurroundings {
  /** The document as it is to read. */
  readonly document: unknown;
  /** Does the map at these keys stand in one stretch of text, in braces? */
  readonly isInline: (keys: Keys) => boolean;
}

/**
 * Which edits must reach further than their own place? A map that loses its last field is written as an empty one, since
 * nothing after its key would read as null; a map in braces that gains or loses several fields is written anew, since
 * the commas between them belong to both neighbours. Everything else stays as it is.
 */
export const coarserEdits = (
  edits: readonly DocumentEdit[],
  { document, isInline }: EditSurroundings,
): readonly DocumentEdit[] => {
  const structural = new Map<string, { readonly keys: Keys; readonly edits: DocumentEdit[] }>();
  for (const edit of edits) {
    if (edit.kind === 'set') continue;
    const keys = edit.keys.slice(0, -1);
    const there = structural.get(pointerOf(keys)) ?? { keys, edits: [] };
    there.edits.push(edit);
    structural.set(pointerOf(keys), there);
  }
  const rewritten = [...structural.values()]
    .filter(
      ({ keys, edits: inside }) =>
        keys.length > 0 && (isEmptied(document, keys) || (inside.length > 1 && isInline(keys))),
    )
    .map(({ keys }) => keys);
  const outermost = rewritten.filter((keys) => !rewritten.some((other) => other !== keys && isWithin(keys, other)));
  return [
    ...edits.filter(({ keys }) => !outermost.some((outer) => isWithin(keys, outer))),
    ...outermost.map((keys): DocumentEdit => ({ kind: 'set', keys, value: valueAt(document, keys) })),
  ];
};

const isEmptied = (document: unknown, keys: Keys): boolean => {
  const value = valueAt(document, keys);
  return isMap(value) && Object.keys(value).length === 0;
};

const isWithin = (keys: Keys, outer: Keys): boolean => outer.every((key, index) => key === keys[index]);
