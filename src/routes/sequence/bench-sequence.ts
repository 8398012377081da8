import type { ReuseClass, RouteAction, RouteAtom } from '../problem/route-problem.ts';

/** One item of a sequence of work, whatever it came from: a planned action, a log entry, or a step of the maker's document. */
export interface SequenceItem {
  /** Address in the record, or the planned action's id. */
  readonly address: string;
  readonly atoms: readonly RouteAtom[];
  readonly released: readonly { readonly fastener: string; readonly leaves: ReuseClass | undefined }[];
  /** Parts that this item newly sets aside or frees. */
  readonly off: readonly string[];
  readonly evidence: readonly string[];
  /** True where the record does not say with which tools it was done. */
  readonly toolsUnknown: boolean;
}

/** Which items does a planned route have, in order? */
export const itemsOfRoute = (actions: readonly RouteAction[]): readonly SequenceItem[] => {
  const off = new Set<string>();
  return actions.map((action) => {
    const newly = action.gives
      .flatMap((fact) =>
        fact.startsWith('off/') || fact.startsWith('free/') ? [fact.slice(fact.indexOf('/') + 1)] : [],
      )
      .filter((part) => !off.has(part));
    for (const part of newly) off.add(part);
    return {
      address: action.id,
      atoms: action.atoms,
      released: action.kind === 'release' ? [{ fastener: action.subject, leaves: action.leaves }] : [],
      off: [...new Set(newly)],
      evidence: [],
      toolsUnknown: false,
    };
  });
};

/** Which atoms does a sequence have, and which item is each of? */
export const flatAtoms = (
  items: readonly SequenceItem[],
): { readonly atoms: readonly RouteAtom[]; readonly itemOf: readonly number[] } => {
  const [atoms, itemOf]: [RouteAtom[], number[]] = [[], []];
  for (const [index, item] of items.entries())
    for (const atom of item.atoms) {
      atoms.push(atom);
      itemOf.push(index);
    }
  return { atoms, itemOf };
};

/**
 * Where does the stretch begin that fastener and tool points look at? After the last item before the part's own removal that
 * newly set aside or freed another priority part (Regulation (EU) 2023/1669, Annex IV point 5: since the previous priority
 * part in the sequence was removed). Where no item removes the part, its removal is taken to be the last one.
 */
export const sequenceStretch = (
  items: readonly SequenceItem[],
  target: string,
  priorityParts: ReadonlySet<string>,
): number => {
  const removal = items.findLastIndex((item) => item.atoms.some((atom) => atom.removes?.part === target));
  const end = removal < 0 ? items.length - 1 : removal;
  let start = 0;
  for (const [index, item] of items.entries())
    if (index < end && item.off.some((part) => part !== target && priorityParts.has(part))) start = index + 1;
  return start;
};
