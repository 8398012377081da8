import { canonicalJson, sha256Hex } from '../canonical-json.ts';
import type { StoredChange } from '../ledger.ts';

/** A change as it is hashed: everything stored of it but the hash. */
export type UnhashedChange = Omit<StoredChange, 'hash'>;

/**
 * Which hash binds a change to the one before it? SHA-256 over the canonical JSON (RFC 8785) of all its members, `previous`
 * among them, together with the format's name and version; members that are absent are left out. See
 * `docs/method/ledger.md`.
 */
export const changeHash = (change: UnhashedChange): string => sha256Hex(changeText(change));

/** The very text that is hashed, for a stranger who checks by hand. */
const changeText = (change: UnhashedChange): string => {
  const {
    assessment,
    revision,
    change: key,
    base,
    patch,
    author,
    at,
    note,
    received,
    undoes,
    source,
    previous,
  } = change;
  const members = {
    assessment,
    revision,
    change: key,
    base,
    patch,
    author,
    at,
    note,
    received,
    undoes,
    source,
    previous,
  };
  return canonicalJson({ format: 'unfasten/change', version: 1, ...members });
};
