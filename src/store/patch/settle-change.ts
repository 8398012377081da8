import { meetingPlaces } from '#record/patch/meeting-places';
import { writtenPlaces } from '#record/patch/written-places';
import { canonicalJson } from '../canonical-json.ts';
import { clashesAt, conflict } from '../conflict.ts';
import type { ChangeRequest, StoredChange } from '../ledger.ts';
import { storeLimits } from '../store-limits.ts';
import { applyPatch } from './apply-patch.ts';
import { documentTooLarge } from './first-change.ts';
import { faultAt, refuseChange } from './patch-faults.ts';
import { shapeFaults } from './touched-shape.ts';

/** What a change meets: the present document, and what others wrote since the revision it was made against. */
export interface Meeting {
  readonly head: { readonly revision: number; readonly document: unknown };
  readonly atMostBytes: number;
  readonly since: readonly StoredChange[];
  /** The document the change was made against; asked for only to tell both sides of a conflict. */
  baseDocument(): Promise<unknown>;
}

/**
 * What becomes of the present document under a change, if it may be taken? A change made against an older revision is
 * applied onto the present one when it meets nothing written since. Throws kind `conflict` or `change`.
 */
export const settleChange = async (
  request: ChangeRequest,
  patchBytes: number,
  meeting: Meeting,
): Promise<{ readonly document: unknown; readonly atMostBytes: number }> => {
  const { head, since } = meeting;
  const met =
    since.length === 0
      ? []
      : meetingPlaces(
          request.patch,
          since.flatMap(({ patch }) => patch),
        );
  if (met.length > 0) {
    const sides = { base: await meeting.baseDocument(), head: head.document, headRevision: head.revision };
    throw conflict(request, sides, clashesAt(met, request, sides));
  }
  const { document, faults, failedTests } = applyPatch(head.document, request.patch);
  if (failedTests.length > 0) throw conflict(request, { headRevision: head.revision }, failedTests);
  if (faults.length > 0) throw refuseChange('The patch does not fit the document', request.assessment, faults);
  const broken = shapeFaults(document, request.patch.flatMap(writtenPlaces));
  if (broken.length > 0) throw refuseChange('The change breaks the form of the record', request.assessment, broken);
  return { document, atMostBytes: boundBytes(request, document, meeting.atMostBytes + patchBytes) };
};

/** A patch adds at most its own bytes, save by copying; only near the limit is the document measured. */
const boundBytes = ({ patch }: ChangeRequest, document: unknown, estimate: number): number => {
  const copies = patch.some(({ op }) => op === 'copy');
  if (!copies && estimate <= storeLimits.documentBytes) return estimate;
  const bytes = Buffer.byteLength(canonicalJson(document));
  if (bytes > storeLimits.documentBytes) throw documentTooLarge();
  return bytes;
};

/** Refuses a change made against a revision that does not exist yet. */
export const unknownBase = ({ assessment, base }: ChangeRequest, headRevision: number) =>
  refuseChange('The change was made against a revision that does not exist', assessment, [
    faultAt('base', `the last revision is ${headRevision}`, { value: base, remedy: 'Read the document again.' }),
  ]);
