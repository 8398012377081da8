import { closeSync, openSync, readSync, statSync } from 'node:fs';
import { UnfastenError } from '#quantity/unfasten-error';

/** `application_id` of a ledger: the bytes "UNFL" (SQLite file format, section 1.3.9, offset 68). */
export const LEDGER_APPLICATION_ID = 0x554e464c;

const HEADER_BYTES = 100;
const MAGIC = 'SQLite format 3\u0000';
const APPLICATION_ID_OFFSET = 68;

/**
 * Does this file look like a ledger, before anything opens it for writing? `absent` where there is none or an empty one.
 * Throws kind `ledger` for a folder, a file of another kind, or another application's database; nothing is changed.
 */
export const recogniseFile = (file: string): 'absent' | 'ledger' => {
  const stat = statSync(file, { throwIfNoEntry: false });
  if (stat === undefined || (stat.isFile() && stat.size === 0)) return 'absent';
  if (!stat.isFile()) throw wrongFile(file, 'it is no file');
  const header = readHeader(file);
  if (header.subarray(0, MAGIC.length).toString('latin1') !== MAGIC) throw wrongFile(file, 'it is no database');
  const application = header.readInt32BE(APPLICATION_ID_OFFSET);
  if (application !== LEDGER_APPLICATION_ID) throw wrongFile(file, "it is another application's database");
  return 'ledger';
};

const readHeader = (file: string): Buffer => {
  const header = Buffer.alloc(HEADER_BYTES);
  const handle = openSync(file, 'r');
  try {
    readSync(handle, header, 0, HEADER_BYTES, 0);
  } finally {
    closeSync(handle);
  }
  return header;
};

const wrongFile = (file: string, why: string): UnfastenError<'ledger'> =>
  new UnfastenError('ledger', `The file in place of the ledger is none: ${why}`, {
    where: file,
    value: file,
    remedy: 'Nothing was changed. Move it away, or name another folder with --data.',
  });
