import { dirname } from 'node:path';
import Database from 'better-sqlite3';
import { UnfastenError } from '#quantity/unfasten-error';
import { asStorageError } from './storage-error.ts';

/** A hold on a data folder; it ends with `release` or with the process, however that ends. */
export interface DataLock {
  release(): void;
}

/**
 * Takes the data folder for this process alone: an exclusive transaction held open on a database of its own, so that the
 * operating system lets go of it when the process dies. Throws kind `in-use` when another holds it, kind `storage` when
 * the folder cannot be written, kind `ledger` when another file lies in place of the lock.
 */
export const takeDataLock = (file: string): DataLock => {
  let database: Database.Database | undefined;
  try {
    database = new Database(file, { timeout: 0 });
    // A journal in memory leaves no second file behind; nothing is ever written in this database.
    database.pragma('journal_mode = MEMORY');
    database.exec('BEGIN EXCLUSIVE');
  } catch (error) {
    database?.close();
    throw isBusy(error) ? inUse(file) : asStorageError(error, file);
  }
  const held = database;
  return { release: () => void held.close() };
};

const isBusy = (error: unknown): boolean =>
  error instanceof Error && 'code' in error && String(error.code).startsWith('SQLITE_BUSY');

const inUse = (file: string): UnfastenError<'in-use'> =>
  new UnfastenError('in-use', 'Another unfasten is at work in this data folder', {
    where: file,
    value: dirname(file),
    remedy: 'End it where it was started (Ctrl+C), or name another folder with --data.',
  });
