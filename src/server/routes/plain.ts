import type { StoredChange } from '#store/ledger';

/** A value as the wire has it; its shape is the description's, which the compiler cannot follow into a whole record. */
type Wire = Record<string, Record<string, never>>;

/** How does a document go over the wire? As it is. */
export const plainDocument = (document: object): Wire => document as Wire;

/** How does a change go over the wire? With a list of its own, since the ledger's is read-only. */
export const plainChange = (change: StoredChange) => ({ ...change, patch: [...change.patch] as never[] });
