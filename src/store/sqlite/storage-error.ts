import { UnfastenError } from '#quantity/unfasten-error';

const BACKUP = 'Stop working in it, run `unfasten ledger verify`, and bring back the last backup if that finds damage.';

/** Words for what the database or the file system reports, by the beginning of its code. */
const words: readonly (readonly [code: RegExp, kind: 'storage' | 'ledger' | 'in-use', what: string, remedy: string])[] =
  [
    [
      /^(SQLITE_FULL|ENOSPC|EDQUOT)/,
      'storage',
      'The disk is full: the change was not taken',
      'Make room and send it again.',
    ],
    [
      /^(SQLITE_READONLY|SQLITE_CANTOPEN|SQLITE_PERM|EACCES|EPERM|EROFS)/,
      'storage',
      'The data folder may not be written by this program',
      'Give the user who runs it the right to write there, or name another folder.',
    ],
    [/^(ENOTDIR|EEXIST)/, 'storage', 'A file lies in place of a folder of the ledger', 'Move it away.'],
    [
      /^SQLITE_NOTADB/,
      'ledger',
      'The file in place of the ledger is none',
      'Nothing was changed; put the ledger back.',
    ],
    [/^SQLITE_CORRUPT/, 'ledger', 'The ledger file is damaged', BACKUP],
    [/^(SQLITE_BUSY|SQLITE_LOCKED)/, 'in-use', 'Another program holds the ledger', 'End it first.'],
    [/^(SQLITE_IOERR|EIO)/, 'storage', 'The disk failed while reading or writing', `Check the disk. ${BACKUP}`],
    [
      /^ERR_DLOPEN_FAILED|^MODULE_NOT_FOUND|bindings file/,
      'storage',
      'The database was not built for this machine',
      'Install python3, make and g++, then run `npm rebuild better-sqlite3`.',
    ],
  ];

/** What does a fault of the database or the file system mean to a person? Other errors come back as they are. */
export const asStorageError = (error: unknown, where: string): unknown => {
  if (!(error instanceof Error) || error instanceof UnfastenError) return error;
  const code = 'code' in error ? String(error.code) : error.message;
  const found = words.find(([pattern]) => pattern.test(code));
  if (found === undefined) return error;
  const [, kind, what, remedy] = found;
  return new UnfastenError(kind, what, { where, value: code, remedy });
};

/** Runs work on the disk; faults come out in words that name the place. */
export const withStorageErrors = async <T>(where: string, work: () => T | Promise<T>): Promise<T> => {
  try {
    return await work();
  } catch (error) {
    throw asStorageError(error, where);
  }
};
