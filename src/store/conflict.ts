import { type Clash, UnfastenError } from '#quantity/unfasten-error';
import { type Keys, pointerOf, valueAt } from '#record/patch/json-pointer';
import type { ChangeRequest } from './ledger.ts';
import { applyPatch } from './patch/apply-patch.ts';

/** The three states a clash is told by: what the change was made against, what stands now. */
export interface BothSides {
  readonly base: unknown;
  readonly head: unknown;
  readonly headRevision: number;
}

/** Refuses a change with both versions of every place where it clashes. */
export const conflict = (
  { assessment, base, patch }: ChangeRequest,
  { headRevision }: Pick<BothSides, 'headRevision'>,
  clashes: readonly Clash[],
): UnfastenError<'conflict'> => {
  const where = `${assessment}${clashes[0]?.path ?? ''}`;
  const what =
    base === headRevision
      ? 'A place does not hold what the change takes for granted'
      : `This place was changed in the meantime (revision ${base} is now ${headRevision})`;
  return new UnfastenError('conflict', what, {
    where,
    value: clashes[0]?.head ?? patch[0]?.path,
    remedy: 'Look at both versions, and send the one that holds against the present revision.',
    assessment,
    headRevision,
    clashes,
  });
};

/** Both versions of the places at which a change meets what others wrote. */
export const clashesAt = (places: readonly Keys[], request: ChangeRequest, sides: BothSides): readonly Clash[] => {
  const { document: wantedDocument } = applyPatch(sides.base, request.patch);
  const distinct = new Map(places.map((place) => [pointerOf(place), place]));
  return [...distinct].map(([path, place]) => {
    const values = {
      base: valueAt(sides.base, place),
      head: valueAt(sides.head, place),
      wanted: valueAt(wantedDocument, place),
    };
    const known = Object.entries(values).filter(([, value]) => value !== undefined);
    return { path, ...Object.fromEntries(known) };
  });
};
