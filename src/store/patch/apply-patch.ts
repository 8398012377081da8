import type { Clash, LocatedFault } from '#quantity/unfasten-error';
import { applyPatch as applyToDocument, type Misfit } from '#record/patch/apply-patch';
import type { Operation } from '#record/patch/operation';
import { faultAt } from './patch-faults.ts';

/** What a patch makes of a document: the new one, or why it cannot be applied, as the ledger refuses it. */
export interface Applied {
  readonly document: unknown;
  /** Operations that do not fit the document; empty when it was applied. */
  readonly faults: readonly LocatedFault[];
  /** Tests of the patch that do not hold. */
  readonly failedTests: readonly Clash[];
}

/** What becomes of a document under a patch, told as the ledger tells it: faults to mend, and tests that do not hold. */
export const applyPatch = (document: unknown, patch: readonly Operation[]): Applied => {
  const applied = applyToDocument(document, patch);
  if (applied.fits) return { document: applied.document, faults: [], failedTests: [] };
  return { document, faults: [], failedTests: [], ...refusal(applied) };
};

const refusal = ({ why, place, operation, index, found, message }: Misfit): Partial<Applied> => {
  if (why === 'test' && operation.op === 'test')
    return { failedTests: [{ path: place, base: operation.value, ...(found === undefined ? {} : { head: found }) }] };
  return { faults: [faultAt(`patch/${index}`, message, { value: place, remedy: REMEDY[why] })] };
};

const READ_AGAIN = 'Read the document again.';

const REMEDY: Readonly<Record<Misfit['why'], string>> = {
  list: 'Replace the list as a whole.',
  'no-map': 'Add the map above it first.',
  absent: READ_AGAIN,
  test: READ_AGAIN,
  other: READ_AGAIN,
};
