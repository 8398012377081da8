import { createWriteStream, mkdirSync, readdirSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { pipeline } from 'node:stream/promises';
import { UnfastenError } from '#quantity/unfasten-error';
import type { EvidenceStore } from '../evidence-store.ts';
import type { Ledger } from '../ledger.ts';
import { withStorageErrors } from '../sqlite/storage-error.ts';
import { evidenceFiles, type RenamedEvidence } from './evidence-files.ts';
import { type WritingManner, writtenDocument } from './written-document.ts';

/** An assessment to be written out, and whereto. */
export interface FolderExport {
  readonly assessment: string;
  /** Folder to write into: new, or empty. */
  readonly folder: string;
  /** The revision to write; the last one unless said. */
  readonly revision?: number;
}

/** What was written. */
export interface ExportedFolder {
  readonly file: string;
  readonly revision: number;
  readonly manner: WritingManner;
  /** Names of the files of evidence written. */
  readonly evidence: readonly string[];
  /** Files whose name another had already: the written document names them as they lie there. */
  readonly renamed: readonly RenamedEvidence[];
  /** Names whose file the ledger does not hold, or that may not stand in a folder: not written. */
  readonly missing: readonly string[];
}

/**
 * Writes an assessment out as a folder: the file it was imported from with only the changed places rewritten, and its
 * evidence. Throws kind `usage` when the folder is not empty, and kind `not-in-ledger`.
 */
export const exportFolder = async (
  { ledger, evidence }: { readonly ledger: Ledger; readonly evidence: EvidenceStore },
  { assessment, folder, revision }: FolderExport,
): Promise<ExportedFolder> => {
  const head = await (revision === undefined ? ledger.head(assessment) : ledger.at(assessment, revision));
  const source = await ledger.source(assessment);
  const held = new Set(await evidence.list());
  const { document, files, renamed, missing } = evidenceFiles(head.document, source?.files ?? {}, (sha256) =>
    held.has(sha256),
  );
  const { name, bytes, manner } = writtenDocument(document, source);
  requireEmpty(folder);
  const file = join(folder, name);
  await withStorageErrors(folder, async () => {
    mkdirSync(folder, { recursive: true });
    writeFileSync(file, bytes, { flag: 'wx' });
    for (const [evidenceName, sha256] of files) {
      const path = join(folder, 'evidence', evidenceName);
      mkdirSync(dirname(path), { recursive: true });
      await pipeline(await evidence.open(sha256), createWriteStream(path, { flags: 'wx' }));
    }
  });
  return { file, revision: head.revision, manner, evidence: [...files.keys()].sort(), renamed, missing };
};

const requireEmpty = (folder: string): void => {
  try {
    if (readdirSync(folder).length === 0) return;
  } catch (error) {
    if (error instanceof Error && 'code' in error && error.code === 'ENOENT') return;
    throw error;
  }
  throw new UnfastenError('usage', 'This folder is not empty', {
    where: folder,
    value: folder,
    remedy: 'Name a new folder, so that nothing is overwritten.',
  });
};
