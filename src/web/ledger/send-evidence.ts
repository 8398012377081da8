import { answered, NotAnswered } from './ledger-client.ts';

/** A file as the server keeps it. */
export interface KeptFile {
  /** SHA-256 of its bytes as they arrived, 64 hex digits. */
  readonly sha256: string;
  readonly bytes: number;
}

/**
 * Sends a file of evidence; resolves when its bytes are on the server's disk. The browser reads it piece by piece as it sends,
 * so that a long recording is never held as a whole. Throws `NotAnswered`; then nothing was kept.
 */
export const sendEvidence = async (file: Blob): Promise<KeptFile> => {
  const response = await answered(fetch('/api/evidence', { method: 'PUT', body: file })).catch(inWordsOfAFile);
  const { sha256, bytes } = (await response.json()) as KeptFile;
  return { sha256, bytes };
};

/** Unlike a change, a file that did not arrive waits nowhere. */
const inWordsOfAFile = (error: unknown): never => {
  if (error instanceof NotAnswered && !error.reached)
    throw new NotAnswered('The server did not answer to the end. Try again when it does.', false);
  throw error;
};
