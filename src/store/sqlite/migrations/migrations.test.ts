import { join } from 'node:path';
import Database from 'better-sqlite3';
import { sql } from 'kysely';
import { afterAll, expect, test } from 'vitest';
import { temporaryFolder } from '../../../../test/store-fixtures.ts';
import { openDatabase } from '../open-database.ts';
import { LEDGER_APPLICATION_ID } from '../recognise-file.ts';
import { chain } from './0001-chain.ts';
import type { Migration } from './migration.ts';
import { migrationList } from './migration-list.ts';

const root = temporaryFolder('migrations');
afterAll(() => root.remove());

const formOf = (file: string) => {
  const database = new Database(file, { readonly: true });
  const columns = database
    .prepare(
      "SELECT m.name AS name, group_concat(c.name, ' ') AS columns FROM sqlite_master m, pragma_table_info(m.name) c WHERE m.type = 'table' GROUP BY m.name ORDER BY m.name",
    )
    .all();
  const triggers = database
    .prepare("SELECT name FROM sqlite_master WHERE type = 'trigger' ORDER BY name")
    .pluck()
    .all();
  const [version, application] = ['user_version', 'application_id'].map((name) =>
    database.pragma(name, { simple: true }),
  );
  database.close();
  return { columns, triggers, version, application };
};

test('0001 makes of an empty file the chain, the tips, the kept documents and the imported files', async () => {
  const file = join(root.path, 'first.sqlite');
  new Database(file).close();
  await (await openDatabase(file, { readOnly: false, migrations: [chain] })).close();
  expect(formOf(file)).toEqual({
    version: 1,
    application: LEDGER_APPLICATION_ID,
    triggers: ['changes_no_delete', 'changes_no_update'],
    columns: [
      { name: 'assessments', columns: 'assessment revision hash title product category invented state changed' },
      {
        name: 'changes',
        columns: 'assessment revision change base patch author at note received undoes source previous hash',
      },
      { name: 'heads', columns: 'assessment revision hash document document_sha256' },
      { name: 'sources', columns: 'assessment name bytes' },
    ],
  });
});

test('the steps are numbered 1, 2, 3 … and the last one is the form of this program', () => {
  expect(migrationList.map(({ version }) => version)).toEqual(migrationList.map((_, index) => index + 1));
});

const further: Migration = {
  version: 2,
  adds: 'a column for the test',
  up: async (database) => void (await sql`ALTER TABLE assessments ADD COLUMN shelf_mark text`.execute(database)),
};

test('a further step is applied once to a file of the form before, and keeps what is in it', async () => {
  const file = join(root.path, 'further.sqlite');
  const before = await openDatabase(file, { readOnly: false, migrations: [chain] });
  before.bare.exec("INSERT INTO assessments VALUES ('a', 1, 'h', NULL, 'Tarn 5', NULL, 1, 'prepared', 't')");
  await before.close();
  for (let opening = 1; opening <= 2; opening += 1) {
    const after = await openDatabase(file, { readOnly: false, migrations: [chain, further] });
    const rows = after.bare.prepare('SELECT assessment, product, shelf_mark FROM assessments').all();
    expect([formOf(file).version, rows]).toEqual([2, [{ assessment: 'a', product: 'Tarn 5', shelf_mark: null }]]);
    await after.close();
  }
});

test('a step that fails leaves the file in the form before', async () => {
  const file = join(root.path, 'failing.sqlite');
  await (await openDatabase(file, { readOnly: false, migrations: [chain] })).close();
  const failing: Migration = {
    ...further,
    up: async (database) => {
      await further.up(database);
      throw new Error('in the middle');
    },
  };
  await expect(openDatabase(file, { readOnly: false, migrations: [chain, failing] })).rejects.toThrow('in the middle');
  expect([formOf(file).version, JSON.stringify(formOf(file).columns).includes('shelf_mark')]).toEqual([1, false]);
});

test('an older form is not read only: it says to open it for writing first', async () => {
  const file = join(root.path, 'older.sqlite');
  await (await openDatabase(file, { readOnly: false, migrations: [chain] })).close();
  await expect(openDatabase(file, { readOnly: true, migrations: [chain, further] })).rejects.toMatchObject({
    kind: 'ledger',
  });
});

test('a stored change can be neither rewritten nor deleted through the database', async () => {
  const { bare, close } = await openDatabase(join(root.path, 'fixed.sqlite'), { readOnly: false });
  bare.exec("INSERT INTO assessments VALUES ('a', 1, 'h', NULL, 'Tarn 5', NULL, 1, 'prepared', 't')");
  bare.exec("INSERT INTO changes VALUES ('a', 1, 'c', 0, '[]', 'J. K.', 't', NULL, 't', NULL, NULL, NULL, 'h')");
  for (const statement of ["UPDATE changes SET author = 'x'", 'DELETE FROM changes'])
    expect(() => bare.exec(statement)).toThrow('a change is never rewritten');
  await close();
});

test('the database keeps a write-ahead log, flushes every commit, and enforces references', async () => {
  const { bare, close } = await openDatabase(join(root.path, 'durable.sqlite'), { readOnly: false });
  const settings = ['journal_mode', 'synchronous', 'foreign_keys'].map((name) => bare.pragma(name, { simple: true }));
  expect(settings).toEqual(['wal', 2, 1]);
  await close();
});
