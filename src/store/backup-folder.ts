import { randomUUID } from 'node:crypto';
import { mkdirSync, renameSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import type { EvidenceStore } from './evidence-store.ts';
import type { Ledger, Verification } from './ledger.ts';
import { openEvidence } from './open-evidence.ts';
import { LEDGER_FILE, openLedger } from './open-ledger.ts';
import { settleCopy } from './sqlite/open-database.ts';
import { recogniseFile } from './sqlite/recognise-file.ts';
import { withStorageErrors } from './sqlite/storage-error.ts';

/** What a backup holds. */
export interface Backup {
  readonly file: string;
  /** The chains of the copy, walked after it was written. */
  readonly verification: Verification;
  /** Files of evidence copied now, and those that an earlier backup had brought. */
  readonly evidence: { readonly copied: number; readonly present: number };
}

/**
 * Copies ledger and evidence into a folder, while both may be in use, and walks the chains of the copy. The folder is new,
 * or holds an earlier backup, which is replaced only by a whole one. The result is a data folder of its own. Throws kind
 * `ledger` when another file lies in place of the backup, kind `storage` when it cannot be written.
 */
export const backupFolder = async (
  { ledger, evidence }: { readonly ledger: Ledger; readonly evidence: EvidenceStore },
  folder: string,
): Promise<Backup> => {
  const file = join(folder, LEDGER_FILE);
  recogniseFile(file);
  const part = `${file}.${randomUUID()}.part`;
  await withStorageErrors(folder, async () => {
    mkdirSync(folder, { recursive: true });
    try {
      await ledger.backup(part);
      settleCopy(part);
      renameSync(part, file);
    } finally {
      rmSync(part, { force: true });
    }
  });
  const copied = await copyEvidence(evidence, openEvidence(folder));
  const copy = await openLedger({ folder, readOnly: true });
  const verification = await copy.ledger.verify().finally(() => copy.ledger.close());
  return { file, verification, evidence: copied };
};

/** A file is copied after the ledger, so that whatever the copied ledger names was there already. */
const copyEvidence = async (from: EvidenceStore, to: EvidenceStore): Promise<Backup['evidence']> => {
  const present = new Set(await to.list());
  const missing = (await from.list()).filter((name) => !present.has(name));
  for (const name of missing) await to.put(await from.open(name));
  return { copied: missing.length, present: present.size };
};
