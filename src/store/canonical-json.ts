import { createHash } from 'node:crypto';
import canonicalize from 'canonicalize';
import { UnfastenError } from '#quantity/unfasten-error';

/**
 * How does a JSON value read in its one canonical form (RFC 8785)? Members that are `undefined` are left out. Throws kind
 * `change` for what JSON cannot carry: NaN, infinities, half a surrogate pair, circles.
 */
export const canonicalJson = (value: unknown): string => {
  try {
    const text = canonicalize(value);
    if (text !== undefined) return text;
    throw new Error('This is no JSON value');
  } catch (error) {
    const message = error instanceof Error ? error.message : String(error);
    const remedy = 'Send numbers, texts, true, false, lists and maps only; texts in whole characters.';
    throw new UnfastenError('change', `A value cannot be written as JSON: ${message}`, {
      where: 'document',
      value: undefined,
      remedy,
      faults: [{ path: '', message, value: undefined, remedy }],
    });
  }
};

/** SHA-256 (FIPS 180-4) of a text's UTF-8 bytes, or of bytes, as 64 lower-case hex digits. */
export const sha256Hex = (content: string | Uint8Array): string => createHash('sha256').update(content).digest('hex');
