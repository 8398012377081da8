import { copyFileSync, mkdirSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { addEntry, changeOf, newAssessment, temporaryFolder } from '../../../test/store-fixtures.ts';
import { openLedger } from '../open-ledger.ts';

const root = temporaryFolder('verify');
afterAll(() => root.remove());
const sound = join(root.path, 'sound');
let copies = 0;

/** Two assessments; five changes in one of them, with a note, a merge and an undo, and an imported file. */
beforeAll(async () => {
  const { ledger } = await openLedger({ folder: sound });
  await ledger.create(newAssessment({ assessment: 'beck-11' }));
  const source = { name: 'assessment.json', bytes: Buffer.from('{}'), files: { 'a.txt': '0'.repeat(64) } };
  await ledger.create(newAssessment({ source }));
  await ledger.append(changeOf(1, [addEntry('v2', 1)], { note: 'first' }));
  await ledger.append(changeOf(1, [addEntry('v3', 2)]));
  const { patch: _patch, base: _base, ...head } = changeOf(3, []);
  await ledger.undo({ ...head, undoes: 2 });
  await ledger.append(changeOf(4, [addEntry('v5', 3)]));
  await ledger.close();
});

/** A copy of the ledger in which somebody has been at work with a tool for databases. */
const tampered = (...statements: readonly string[]): string => {
  const folder = join(root.path, `copy-${copies++}`);
  mkdirSync(folder);
  copyFileSync(join(sound, 'ledger.sqlite'), join(folder, 'ledger.sqlite'));
  const database = new Database(join(folder, 'ledger.sqlite'));
  database.pragma('foreign_keys = OFF');
  database.exec('DROP TRIGGER changes_no_update; DROP TRIGGER changes_no_delete');
  for (const statement of statements) database.exec(statement);
  database.close();
  return folder;
};

const verified = async (folder: string) => {
  const { ledger } = await openLedger({ folder, readOnly: true });
  return await ledger.verify().finally(() => ledger.close());
};

test('an untouched ledger holds, and its heads are named', async () => {
  const { heads, ...rest } = await verified(sound);
  expect(rest).toEqual({ sound: true, assessments: 2, changes: 6, broken: [], damage: [] });
  expect(heads.map(({ assessment, revision }) => [assessment, revision])).toEqual([
    ['beck-11', 1],
    ['tarn-5', 5],
  ]);
});

const THIRD = "WHERE assessment = 'tarn-5' AND revision = 3";

test.each([
  ['change', "'x'"],
  ['base', '2'],
  ['patch', "replace(patch, 'pry', 'cut')"],
  ['author', "'somebody else'"],
  ['at', "'2026-10-01T09:00:00+01:00'"],
  ['note', "'a note'"],
  ['received', "'2020-01-01T00:00:00Z'"],
  ['undoes', '2'],
  ['source', `'{"name":"a","sha256":"b"}'`],
  ['previous', "'0'"],
  ['previous', 'NULL'],
  ['hash', "'0'"],
])('a changed %s (%s) breaks the chain at that very revision', async (column, value) => {
  const { sound: holds, broken } = await verified(tampered(`UPDATE changes SET ${column} = ${value} ${THIRD}`));
  expect([holds, broken]).toEqual([false, [{ assessment: 'tarn-5', revision: 3, what: expect.any(String) }]]);
});

test.each<[string, readonly string[], number]>([
  ['a change taken out', [`DELETE FROM changes ${THIRD}`], 4],
  ['the first change taken out', ["DELETE FROM changes WHERE assessment = 'tarn-5' AND revision = 1"], 2],
  [
    'two changes exchanged',
    [3, 4, 9].map(
      (from, index) =>
        `UPDATE changes SET revision = ${[9, 3, 4][index]} WHERE assessment = 'tarn-5' AND revision = ${from}`,
    ),
    3,
  ],
  [
    'a change of another assessment',
    [
      `DELETE FROM changes ${THIRD}`,
      "UPDATE changes SET assessment = 'tarn-5', revision = 3 WHERE assessment = 'beck-11'",
    ],
    3,
  ],
])('%s is found where the chain breaks', async (_, statements, revision) => {
  const { broken } = await verified(tampered(...statements));
  expect(broken).toContainEqual({ assessment: 'tarn-5', revision, what: expect.any(String) });
});

test('the last change taken out is found by the shelf, and the head no longer is the one noted elsewhere', async () => {
  const folder = tampered("DELETE FROM changes WHERE assessment = 'tarn-5' AND revision = 5");
  const { broken, heads } = await verified(folder);
  expect(broken).toEqual([{ assessment: 'tarn-5', what: 'the shelf names another last change' }]);
  expect(heads.find(({ assessment }) => assessment === 'tarn-5')?.revision).toBe(4);
});

test('an imported file that was changed or is missing breaks the first change', async () => {
  for (const statement of ["UPDATE sources SET bytes = x'00'", 'DELETE FROM sources'])
    expect((await verified(tampered(statement))).broken).toEqual([
      { assessment: 'tarn-5', revision: 1, what: expect.stringContaining('the imported file assessment.json') },
    ]);
});

test.each([
  ['a kept document that is gone', "DELETE FROM heads WHERE assessment = 'tarn-5'", 'there was no kept document'],
  [
    'a kept document changed',
    "UPDATE heads SET document = '{}' WHERE assessment = 'tarn-5'",
    'the kept document has another hash',
  ],
  [
    'a kept document of another chain',
    "UPDATE heads SET hash = 'x' WHERE assessment = 'tarn-5'",
    'the kept document belongs to another chain',
  ],
  [
    'another last change on the shelf',
    "UPDATE assessments SET revision = 2 WHERE assessment = 'tarn-5'",
    'the shelf names another last change',
  ],
])('%s is named by verify, and made anew on opening, which says why', async (_, statement, why) => {
  const folder = tampered(statement);
  expect((await verified(folder)).broken).toEqual([{ assessment: 'tarn-5', what: why }]);
  const opened = await openLedger({ folder });
  expect([opened.rebuilt, opened.broken]).toEqual([[{ assessment: 'tarn-5', revision: 5, why }], []]);
  expect((await opened.ledger.head('tarn-5')).document.sessions?.x1?.entries.v5?.at).toBe(3);
  await opened.ledger.close();
  expect((await verified(folder)).sound).toBe(true);
});

test('a kept document that was forged with its hash is found by verify', async () => {
  const { createHash } = await import('node:crypto');
  const hash = createHash('sha256').update('{}').digest('hex');
  const statement = `UPDATE heads SET document = '{}', document_sha256 = '${hash}' WHERE assessment = 'tarn-5'`;
  const { broken } = await verified(tampered(statement));
  expect(broken).toEqual([{ assessment: 'tarn-5', what: expect.stringContaining('not what the changes give') }]);
});

test('an assessment whose chain is broken is shown, but neither read nor changed; the others go on', async () => {
  const folder = tampered(`UPDATE changes SET author = 'x' ${THIRD}`, "DELETE FROM heads WHERE assessment = 'tarn-5'");
  const { ledger, broken } = await openLedger({ folder });
  expect(broken.map(({ assessment }) => assessment)).toEqual(['tarn-5']);
  expect((await ledger.shelf()).map(({ assessment }) => assessment).sort()).toEqual(['beck-11', 'tarn-5']);
  await expect(ledger.head('tarn-5')).rejects.toMatchObject({ kind: 'ledger' });
  await expect(ledger.append(changeOf(5, [addEntry('v6', 9)]))).rejects.toMatchObject({ kind: 'ledger' });
  expect(await ledger.append(changeOf(1, [addEntry('v2', 9)], { assessment: 'beck-11' }))).toMatchObject({
    revision: 2,
  });
  await ledger.close();
});
