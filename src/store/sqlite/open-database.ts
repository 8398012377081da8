import Database from 'better-sqlite3';
import { Kysely, sql } from 'kysely';
import { UnfastenError } from '#quantity/unfasten-error';
import { LedgerDialect } from './ledger-dialect.ts';
import type { Migration } from './migrations/migration.ts';
import { migrationList } from './migrations/migration-list.ts';
import { LEDGER_APPLICATION_ID, recogniseFile } from './recognise-file.ts';
import { withStorageErrors } from './storage-error.ts';
import type { Tables } from './tables.ts';

/** The database of a ledger: through the query builder, and bare for backup and checks. */
export interface OpenDatabase {
  readonly file: string;
  readonly query: Kysely<Tables>;
  readonly bare: Database.Database;
  close(): Promise<void>;
}

/** How to open it. */
export interface DatabaseOptions {
  readonly readOnly: boolean;
  /** Pages the file may have at most; for tests of a full disk. */
  readonly maxPages?: number;
  /** Steps to bring it to; the program's own unless said. */
  readonly migrations?: readonly Migration[];
}

/** How long to wait for another connection, such as a backup's [ms]. */
const BUSY_MILLISECONDS = 5_000;

/**
 * Opens the ledger's database, made where it is missing, in its present form: write-ahead log, every commit on the disk
 * before it returns, references enforced. Throws kind `ledger` for a wrong file or one that a newer program wrote, and
 * kind `storage` when the folder cannot be written.
 */
export const openDatabase = (file: string, options: DatabaseOptions): Promise<OpenDatabase> =>
  withStorageErrors(file, async () => {
    const found = recogniseFile(file);
    if (found === 'absent' && options.readOnly) throw noLedger(file);
    const bare = new Database(file, { readonly: options.readOnly, timeout: BUSY_MILLISECONDS });
    const query = new Kysely<Tables>({ dialect: new LedgerDialect(bare) });
    try {
      bare.pragma('foreign_keys = ON');
      if (options.maxPages !== undefined) bare.pragma(`max_page_count = ${options.maxPages}`);
      await bringUpToDate({ file, query, bare }, options);
      if (!options.readOnly) makeDurable(file, bare);
    } catch (error) {
      await query.destroy();
      throw error;
    }
    return { file, query, bare, close: () => query.destroy() };
  });

const bringUpToDate = async (
  { file, query, bare }: Omit<OpenDatabase, 'close'>,
  { readOnly, migrations = migrationList }: DatabaseOptions,
): Promise<void> => {
  const present = Number(bare.pragma('user_version', { simple: true }));
  const wanted = migrations.at(-1)?.version ?? 0;
  if (present > wanted) throw newerLedger(file, present, wanted);
  if (present === wanted) return;
  if (readOnly) throw olderLedger(file, present);
  // The id, the tables and the version come in one transaction: killed in between, the file is as it was.
  await query.transaction().execute(async (transaction) => {
    await sql.raw(`PRAGMA application_id = ${LEDGER_APPLICATION_ID}`).execute(transaction);
    for (const migration of migrations) {
      if (migration.version <= present) continue;
      await migration.up(transaction as unknown as Kysely<unknown>);
      await sql.raw(`PRAGMA user_version = ${migration.version}`).execute(transaction);
    }
  });
};

const makeDurable = (file: string, bare: Database.Database): void => {
  const mode = bare.pragma('journal_mode = WAL', { simple: true });
  if (mode !== 'wal')
    throw new UnfastenError('storage', 'This disk cannot keep a write-ahead log', {
      where: file,
      value: mode,
      remedy: 'Put the data folder on a disk of this machine.',
    });
  bare.pragma('synchronous = FULL');
};

const noLedger = (file: string): UnfastenError<'not-in-ledger'> =>
  new UnfastenError('not-in-ledger', 'There is no ledger in this folder', {
    where: file,
    value: file,
    remedy: 'Name the data folder that holds one.',
  });

const newerLedger = (file: string, present: number, wanted: number): UnfastenError<'ledger'> =>
  new UnfastenError('ledger', 'A newer unfasten has written this ledger', {
    where: file,
    value: `form ${present}, this program knows ${wanted}`,
    remedy: 'Nothing was changed. Use the newer program.',
  });

const olderLedger = (file: string, present: number): UnfastenError<'ledger'> =>
  new UnfastenError('ledger', 'This ledger has an older form and must be brought up to date first', {
    where: file,
    value: `form ${present}`,
    remedy: 'Open it once for writing, for instance with `unfasten ledger rebuild`.',
  });

/** Makes a copied database one file of its own, without a log beside it, and lays it onto the disk. */
export const settleCopy = (file: string): void => {
  const copy = new Database(file);
  try {
    copy.pragma('journal_mode = DELETE');
  } finally {
    copy.close();
  }
};
