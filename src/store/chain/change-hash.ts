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

const HASHED = [
  'assessment',
  'revision',
  'change',
  'base',
  'patch',
  'author',
  'at',
  'note',
  'received',
  'undoes',
  'source',
  'previous',
] as const satisfies readonly (keyof UnhashedChange)[];

/** The very text that is hashed, for a stranger who checks by hand. */
const changeText = (change: UnhashedChange): string =>
  canonicalJson({
    format: 'unfasten/change',
    version: 1,
    ...Object.fromEntries(HASHED.map((member) => [member, change[member]])),
  });
