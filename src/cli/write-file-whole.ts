import { randomUUID } from 'node:crypto';
import { closeSync, fsyncSync, openSync, renameSync, rmSync, writeFileSync } from 'node:fs';

/**
 * Writes a file whole or not at all: into a neighbour first, onto the disk, then renamed over the old one. A reader never
 * sees half a file, not of one that comes in pieces either; after a failure the old file stands and no neighbour is left. Throws Node's error, with the path given.
 */
export function writeFileWhole(path: string, text: string | Iterable<string>): void {
  const neighbour = `${path}.${randomUUID()}.part`;
  try {
    const handle = openSync(neighbour, 'wx');
    try {
      for (const piece of typeof text === 'string' ? [text] : text) writeFileSync(handle, piece);
      fsyncSync(handle);
    } finally {
      closeSync(handle);
    }
    renameSync(neighbour, path);
  } catch (error) {
    rmSync(neighbour, { force: true });
    // The neighbour's name tells a person nothing.
    throw error instanceof Error ? Object.assign(error, { path }) : error;
  }
}
