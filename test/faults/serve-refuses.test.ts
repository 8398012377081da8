import { chmodSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { afterAll, expect, test } from 'vitest';
import { openLedger } from '#store/open-ledger';
import { addEntry, changeOf, newAssessment, temporaryFolder } from '../store-fixtures.ts';
import { served } from './served.ts';

const root = temporaryFolder('serve-refuses');
afterAll(() => root.remove());
let folders = 0;
const emptyFolder = (): string => {
  const folder = join(root.path, `d${folders++}`);
  mkdirSync(folder);
  return folder;
};

const filledFolder = async (): Promise<string> => {
  const folder = emptyFolder();
  const { ledger } = await openLedger({ folder });
  await ledger.create(newAssessment());
  for (let revision = 1; revision < 40; revision += 1)
    await ledger.append(changeOf(revision, [addEntry(`n${revision}`, revision)]));
  await ledger.close();
  return folder;
};

const inDatabase = (folder: string, work: (database: Database.Database) => void): string => {
  const database = new Database(join(folder, 'ledger.sqlite'));
  work(database);
  database.close();
  return folder;
};

/** A data folder that must not be served, and the words it is refused with. */
interface Refused {
  readonly what: string;
  readonly make: () => Promise<string> | string;
  readonly words: RegExp;
}

const REFUSED: readonly Refused[] = [
  {
    what: 'a text in place of the ledger',
    make: () => {
      const folder = emptyFolder();
      writeFileSync(join(folder, 'ledger.sqlite'), 'notes of somebody, not a database\n'.repeat(200));
      return folder;
    },
    words: /The file in place of the ledger is none: it is no database/,
  },
  {
    what: "another application's database",
    make: () => inDatabase(emptyFolder(), (database) => database.exec('CREATE TABLE changes (a)')),
    words: /The file in place of the ledger is none: it is another application's database/,
  },
  {
    what: 'a ledger of a newer program',
    make: async () => inDatabase(await filledFolder(), (database) => database.pragma('user_version = 99')),
    words: /A newer unfasten has written this ledger/,
  },
  {
    what: 'a ledger whose pages are damaged',
    make: async () => {
      const folder = await filledFolder();
      const file = join(folder, 'ledger.sqlite');
      const bytes = readFileSync(file);
      writeFileSync(file, bytes.fill(0xa5, bytes.readUInt16BE(16)));
      return folder;
    },
    words: /The ledger file is damaged[\s\S]*`unfasten ledger verify`[\s\S]*backup/,
  },
];

const bytesIn = (folder: string): string => readFileSync(join(folder, 'ledger.sqlite'), 'base64');

test.each(REFUSED)(
  'unfasten serve refuses $what in words, with code 1, and changes nothing',
  async ({ make, words }) => {
    const folder = await make();
    const before = bytesIn(folder);
    const { code, said, url } = await served(folder);
    expect({ code, url, trace: /\n\s+at /.test(said()) }).toEqual({ code: 1, url: undefined, trace: false });
    expect(said()).toMatch(words);
    expect(bytesIn(folder)).toBe(before);
    expect(readdirSync(folder).filter((name) => /-wal$|-journal$|-shm$/.test(name))).toEqual([]);
  },
);

/** Nobody, whom file modes bind; a root that runs the tests they do not. */
const NOBODY = 65_534;

test('unfasten serve refuses a folder it may not write, in words, and changes nothing', async () => {
  const folder = await filledFolder();
  const before = bytesIn(folder);
  chmodSync(root.path, 0o755);
  for (const name of readdirSync(folder)) chmodSync(join(folder, name), 0o444);
  chmodSync(folder, 0o555);
  const { code, said } = await served(folder, process.geteuid?.() === 0 ? { user: NOBODY } : {});
  chmodSync(folder, 0o755);
  expect([code, /\n\s+at /.test(said())]).toEqual([1, false]);
  expect(said()).toMatch(/The data folder may not be written by this program/);
  expect(bytesIn(folder)).toBe(before);
});
