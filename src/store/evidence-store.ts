import type { Readable } from 'node:stream';

/** A file of evidence as it lies on the disk. */
export interface StoredEvidence {
  /** SHA-256 of its bytes, 64 lower-case hex digits: its only name. */
  readonly sha256: string;
  readonly bytes: number;
  /** True when the same content was there already. */
  readonly repeated: boolean;
}

/**
 * Where do photographs, clips and documents lie, so that a name can never lead astray? Every file is named by the SHA-256
 * of its bytes and by nothing else; nothing is ever overwritten.
 */
export interface EvidenceStore {
  /**
   * Takes a stream; once this resolves the bytes are on the disk. Throws kind `change` past the byte limit, kind
   * `storage` when the disk is full, and whatever the stream throws; then nothing is left behind.
   */
  put(bytes: AsyncIterable<Uint8Array>, limitBytes?: number): Promise<StoredEvidence>;
  /** Size of a stored file; `undefined` where there is none. Throws kind `not-in-ledger` for what is no SHA-256. */
  find(sha256: string): Promise<StoredEvidence | undefined>;
  /** Opens a stored file, from byte `start` to byte `end` (both included) when given. Throws kind `not-in-ledger`. */
  open(sha256: string, range?: { readonly start: number; readonly end: number }): Promise<Readable>;
  /** The names of all stored files, in order. */
  list(): Promise<readonly string[]>;
  /** Takes away what uploads left that a crash broke off, and says how many. Only while this process holds the ledger. */
  tidy(): Promise<number>;
}
