import { applyPatch as applyToDocument, type Misfit } from '#record/patch/apply-patch';
import { pointerOf } from '#record/patch/json-pointer';
import { meetingPlaces as meetingKeys } from '#record/patch/meeting-places';
import type { Patch } from '#record/patch/operation';

/** What became of a document under a patch: the new one, or where and why it does not fit. */
export type Applied<Document> =
  | { readonly fits: true; readonly document: Document }
  | { readonly fits: false; readonly path: string; readonly why: string };

/** What becomes of a document under a patch, by the ledger's own rule, with the reason in words for whoever decides. */
export const applyPatch = <Document>(document: Document, patch: Patch): Applied<Document> => {
  const applied = applyToDocument(document, patch);
  return applied.fits ? applied : { fits: false, path: applied.place, why: WHY[applied.why] ?? applied.message };
};

const WHY: Partial<Readonly<Record<Misfit['why'], string>>> = {
  test: 'another value stands here now',
  absent: 'there is nothing at this place any more',
  'no-map': 'there is nothing at this place any more',
};

/** At which places does a patch meet what another wrote, each once? The ledger's own rule. */
export const meetingPlaces = (mine: Patch, theirs: Patch): readonly string[] => [
  ...new Set(meetingKeys(mine, theirs).map(pointerOf)),
];
