import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { isUnfastenError } from '#quantity/unfasten-error';
import type { BrokenLink, OpenedLedger, RebuiltHead } from './ledger.ts';
import { takeDataLock } from './sqlite/data-lock.ts';
import { headMisfit, rebuildHead } from './sqlite/heads.ts';
import { openDatabase } from './sqlite/open-database.ts';
import { SqliteLedger } from './sqlite/sqlite-ledger.ts';
import { withStorageErrors } from './sqlite/storage-error.ts';
import type { LedgerDatabase } from './sqlite/tables.ts';

/** Name of the ledger's file in the data folder. */
export const LEDGER_FILE = 'ledger.sqlite';
const LOCK_FILE = 'ledger.lock';

/** How to open a ledger. */
export interface LedgerOptions {
  /** The data folder; made where it is missing unless `readOnly`. */
  readonly folder: string;
  /** Reads beside another process that writes; takes no lock and puts nothing right. */
  readonly readOnly?: boolean;
  /** The ledger's own wall time, RFC 3339; the machine's clock unless said. */
  readonly receivedAt?: () => string;
  /** Pages the database may have at most; lets a test fill the disk. */
  readonly maxPages?: number;
}

/**
 * Opens the ledger of a data folder, and says what had to be put right: kept documents that do not fit their chain are
 * made anew from the changes. Throws kind `in-use` when another process writes there, kind `ledger` for a wrong, newer or
 * damaged file (nothing is overwritten), kind `storage` when the folder cannot be written, and for reading kind
 * `not-in-ledger` when there is none.
 */
export const openLedger = async (options: LedgerOptions): Promise<OpenedLedger> => {
  const { folder, readOnly = false, receivedAt = () => new Date().toISOString(), maxPages } = options;
  const file = join(folder, LEDGER_FILE);
  if (!readOnly) await withStorageErrors(folder, () => void mkdirSync(folder, { recursive: true }));
  const lock = readOnly ? undefined : takeDataLock(join(folder, LOCK_FILE));
  try {
    const database = await openDatabase(file, { readOnly, ...(maxPages === undefined ? {} : { maxPages }) });
    const release = () => lock?.release();
    try {
      const checked = readOnly ? NOTHING_CHECKED : await withStorageErrors(file, () => putRight(database.query));
      return { ledger: new SqliteLedger({ database, readOnly, release, receivedAt }), ...checked };
    } catch (error) {
      await database.close();
      throw error;
    }
  } catch (error) {
    lock?.release();
    throw error;
  }
};

const NOTHING_CHECKED = { rebuilt: [], broken: [] };

const putRight = async (
  database: LedgerDatabase,
): Promise<{ readonly rebuilt: readonly RebuiltHead[]; readonly broken: readonly BrokenLink[] }> => {
  const rows = await database.selectFrom('assessments').select('assessment').orderBy('assessment').execute();
  const rebuilt: RebuiltHead[] = [];
  const broken: BrokenLink[] = [];
  for (const { assessment } of rows) {
    const misfit = await headMisfit(database, assessment);
    if (misfit === undefined) continue;
    try {
      rebuilt.push(await rebuildHead(database, assessment, misfit));
    } catch (error) {
      if (!isUnfastenError(error, 'ledger')) throw error;
      broken.push({ assessment, what: error.message });
    }
  }
  return { rebuilt, broken };
};
