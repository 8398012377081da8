import { createHash, randomUUID } from 'node:crypto';
import { createReadStream, mkdirSync } from 'node:fs';
import { type FileHandle, link, mkdir, open, readdir, rename, rm, stat } from 'node:fs/promises';
import { join } from 'node:path';
import type { Readable } from 'node:stream';
import { UnfastenError } from '#quantity/unfasten-error';
import type { EvidenceStore, StoredEvidence } from '../evidence-store.ts';
import { refuseChange } from '../patch/patch-faults.ts';
import { withStorageErrors } from '../sqlite/storage-error.ts';
import { storeLimits } from '../store-limits.ts';

const SHA256 = /^[0-9a-f]{64}$/;
const UNFINISHED = 'unfinished';

/** Evidence on the disk: `evidence/<first two digits>/<SHA-256>`; see `EvidenceStore`. */
export class DiskEvidence implements EvidenceStore {
  private readonly folder: string;

  constructor(folder: string) {
    this.folder = folder;
  }

  put(bytes: AsyncIterable<Uint8Array>, limitBytes: number = storeLimits.evidenceBytes): Promise<StoredEvidence> {
    return withStorageErrors(this.folder, async () => {
      const unfinished = join(this.folder, UNFINISHED);
      mkdirSync(unfinished, { recursive: true });
      const draft = join(unfinished, randomUUID());
      try {
        const written = await writeDraft(draft, bytes, limitBytes);
        const repeated = await this.settle(draft, written.sha256);
        return { ...written, repeated };
      } finally {
        await rm(draft, { force: true });
      }
    });
  }

  async find(sha256: string): Promise<StoredEvidence | undefined> {
    const file = this.fileOf(sha256);
    return await withStorageErrors(file, async () => {
      const found = await stat(file).catch(missingIsNothing);
      return found?.isFile() ? { sha256, bytes: found.size, repeated: true } : undefined;
    });
  }

  async open(sha256: string, range?: { readonly start: number; readonly end: number }): Promise<Readable> {
    if ((await this.find(sha256)) === undefined) throw noSuchEvidence(sha256);
    return createReadStream(this.fileOf(sha256), range);
  }

  async list(): Promise<readonly string[]> {
    const folders = (await readdir(this.folder).catch(missingIsNothing)) ?? [];
    const pairs = folders.filter((name) => /^[0-9a-f]{2}$/.test(name));
    const names = await Promise.all(pairs.map((pair) => readdir(join(this.folder, pair))));
    return names
      .flat()
      .filter((name) => SHA256.test(name))
      .sort();
  }

  tidy(): Promise<number> {
    return withStorageErrors(this.folder, async () => {
      const unfinished = join(this.folder, UNFINISHED);
      const drafts = (await readdir(unfinished).catch(missingIsNothing)) ?? [];
      for (const draft of drafts) await rm(join(unfinished, draft), { force: true });
      return drafts.length;
    });
  }

  /** The only way from a name to a path: nothing but 64 hex digits gets through. */
  private fileOf(sha256: string): string {
    if (!SHA256.test(sha256)) throw noSuchEvidence(sha256);
    return join(this.folder, sha256.slice(0, 2), sha256);
  }

  /** Gives a finished draft its name, onto the disk. A link never overwrites, unlike a renaming. */
  private async settle(draft: string, sha256: string): Promise<boolean> {
    const file = this.fileOf(sha256);
    await mkdir(join(file, '..'), { recursive: true });
    if (!(await placeOnce(draft, file))) return true;
    await syncFolder(join(file, '..'));
    await syncFolder(this.folder);
    await syncFolder(join(this.folder, '..'));
    return false;
  }
}

const writeDraft = async (
  draft: string,
  bytes: AsyncIterable<Uint8Array>,
  limitBytes: number,
): Promise<{ readonly sha256: string; readonly bytes: number }> => {
  const hash = createHash('sha256');
  const handle = await open(draft, 'wx');
  let written = 0;
  try {
    for await (const chunk of bytes) {
      written += chunk.byteLength;
      if (written > limitBytes) throw evidenceTooLarge(limitBytes);
      hash.update(chunk);
      await writeWhole(handle, chunk);
    }
    await handle.sync();
  } finally {
    await handle.close();
  }
  return { sha256: hash.digest('hex'), bytes: written };
};

/** A full disk may take part of a chunk before it says so. */
const writeWhole = async (handle: FileHandle, chunk: Uint8Array): Promise<void> => {
  for (let done = 0; done < chunk.byteLength; ) done += (await handle.write(chunk, done)).bytesWritten;
};

const syncFolder = async (folder: string): Promise<void> => {
  const handle = await open(folder, 'r');
  try {
    await handle.sync();
  } finally {
    await handle.close();
  }
};

/** False when the file was there. Same name, same bytes: where a disk knows no links, renaming over it loses nothing. */
const placeOnce = async (draft: string, file: string): Promise<boolean> => {
  try {
    await link(draft, file);
    return true;
  } catch (error) {
    if (codeOf(error) === 'EEXIST') return false;
    if (!['EPERM', 'ENOTSUP', 'EOPNOTSUPP'].includes(codeOf(error))) throw error;
  }
  const isThere = (await stat(file).catch(missingIsNothing)) !== undefined;
  if (!isThere) await rename(draft, file);
  return !isThere;
};

const codeOf = (error: unknown): string => (error instanceof Error && 'code' in error ? String(error.code) : '');

const missingIsNothing = (error: unknown): undefined => {
  if (codeOf(error) === 'ENOENT') return undefined;
  throw error;
};

const noSuchEvidence = (sha256: string): UnfastenError<'not-in-ledger'> =>
  new UnfastenError('not-in-ledger', 'There is no evidence of this name', {
    where: 'evidence',
    value: sha256,
    remedy: 'Name it by the SHA-256 of its bytes, 64 lower-case hex digits.',
  });

const evidenceTooLarge = (limitBytes: number): UnfastenError<'change'> =>
  refuseChange(`The file is over the limit of ${limitBytes} bytes`, 'evidence', []);
