import type { UnfastenError } from '#quantity/unfasten-error';
import type { Json, Operation } from '#record/patch/operation';
import { canonicalJson, sha256Hex } from '../canonical-json.ts';
import type { NewAssessment, SourceNote } from '../ledger.ts';
import { storeLimits } from '../store-limits.ts';
import { faultAt, refuseChange } from './patch-faults.ts';
import { checkChangeHead, hostileFaults } from './read-change.ts';
import { shapeFaults } from './touched-shape.ts';

/** The first link of a chain: the whole document, added at the root. */
export interface FirstChange {
  readonly document: Json;
  readonly patch: readonly [Operation];
  readonly source?: SourceNote;
}

/** Which first change begins an assessment? Throws kind `change` when the document is too large or breaks the record's shape. */
export const firstChangeOf = (request: NewAssessment): FirstChange => {
  checkChangeHead(request);
  const text = canonicalJson(request.document);
  if (Buffer.byteLength(text) > storeLimits.documentBytes) throw documentTooLarge();
  const document = JSON.parse(text) as Json;
  const hostile = hostileFaults(document);
  const faults = hostile.length > 0 ? hostile : shapeFaults(document, [[]]);
  if (faults.length > 0) throw refuseChange('The document cannot be taken', request.assessment, faults);
  const patch = [{ op: 'add', path: '', value: document }] as const;
  if (request.source === undefined) return { document, patch };
  const { name, bytes, files } = request.source;
  return { document, patch, source: { name, sha256: sha256Hex(bytes), ...(files === undefined ? {} : { files }) } };
};

/** Refuses a document past the limit. */
export const documentTooLarge = (): UnfastenError<'change'> => {
  const message = `the document is over the limit documentBytes of ${storeLimits.documentBytes}`;
  return refuseChange('The document is too large', 'document', [faultAt('', message, { remedy: 'Split it.' })]);
};
