import { join } from 'node:path';
import Database from 'better-sqlite3';
import { afterAll, expect, test } from 'vitest';
import { temporaryFolder } from '../../../test/store-fixtures.ts';
import { LEDGER_FILE, openLedger } from '../open-ledger.ts';
import { chain } from './migrations/0001-chain.ts';
import { openDatabase } from './open-database.ts';

const root = temporaryFolder('rubrics');
afterAll(() => root.remove());

const edition = (number: number, text = `edition: ${number}\n`) => ({
  id: 'house',
  edition: number,
  text,
  author: 'M. R.',
  at: '2026-11-25T19:00:00+00:00',
});

test('a ledger of the first form gets tables for rubrics and laboratories, and keeps what is in it', async () => {
  const file = join(root.path, 'first.sqlite');
  const before = await openDatabase(file, { readOnly: false, migrations: [chain] });
  before.bare.exec("INSERT INTO assessments VALUES ('a', 1, 'h', NULL, 'Tarn 5', NULL, 1, 'prepared', 't')");
  await before.close();
  const after = await openDatabase(file, { readOnly: false });
  expect(after.bare.prepare('SELECT assessment, product FROM assessments').all()).toEqual([
    { assessment: 'a', product: 'Tarn 5' },
  ]);
  const columns = after.bare.prepare("SELECT group_concat(name, ' ') FROM pragma_table_info('rubrics')").pluck().get();
  expect([columns, after.bare.pragma('user_version', { simple: true })]).toEqual([
    'id edition sha256 text author at received',
    3,
  ]);
  await after.close();
});

test('editions are kept in rising order, answered again for the same text, and read back byte for byte', async () => {
  const folder = join(root.path, 'kept');
  const { ledger } = await openLedger({ folder, receivedAt: () => '2026-11-25T19:00:01Z' });
  const first = await ledger.addRubric(edition(1, 'edition: 1 # ± 🔧\n'));
  expect(await ledger.addRubric(edition(1, 'edition: 1 # ± 🔧\n'))).toEqual(first);
  await expect(ledger.addRubric(edition(1, 'edition: 1 # other\n'))).rejects.toMatchObject({
    kind: 'change',
    details: { faults: [{ path: 'edition', remedy: 'Write edition: 2; a kept edition is never rewritten.' }] },
  });
  await ledger.addRubric(edition(3));
  await expect(ledger.addRubric(edition(2))).rejects.toMatchObject({ kind: 'change' });
  await expect(ledger.addRubric({ ...edition(4), author: '' })).rejects.toMatchObject({ kind: 'change' });
  expect((await ledger.rubrics()).map(({ id, edition: number }) => [id, number])).toEqual([
    ['house', 3],
    ['house', 1],
  ]);
  expect((await ledger.rubric('house', 1)).text).toBe('edition: 1 # ± 🔧\n');
  await expect(ledger.rubric('house', 2)).rejects.toMatchObject({ kind: 'not-in-ledger' });
  await ledger.close();
});

test('editions of laboratories are kept by themselves, beside rubrics of the same name', async () => {
  const folder = join(root.path, 'laboratories');
  const { ledger } = await openLedger({ folder });
  await ledger.addRubric(edition(4));
  await ledger.addLaboratory(edition(1, 'of a laboratory\n'));
  await expect(ledger.addLaboratory(edition(1, 'another\n'))).rejects.toMatchObject({
    kind: 'change',
    details: { faults: [{ path: 'edition', remedy: 'Write edition: 2; a kept edition is never rewritten.' }] },
  });
  expect((await ledger.laboratories()).map(({ id, edition: number }) => [id, number])).toEqual([['house', 1]]);
  expect((await ledger.laboratory('house', 1)).text).toBe('of a laboratory\n');
  await expect(ledger.laboratory('house', 4)).rejects.toMatchObject({ kind: 'not-in-ledger' });
  expect((await ledger.rubrics()).map(({ edition: number }) => number)).toEqual([4]);
  await ledger.close();
  const bare = new Database(join(folder, LEDGER_FILE));
  for (const statement of ["UPDATE laboratories SET text = 'x'", 'DELETE FROM laboratories'])
    expect(() => bare.exec(statement)).toThrow('a kept edition is never rewritten');
  bare.exec("DROP TRIGGER laboratories_no_update; UPDATE laboratories SET text = 'x'");
  bare.close();
  const { ledger: again } = await openLedger({ folder, readOnly: true });
  const { broken } = await again.verify();
  expect(broken.map(({ assessment }) => assessment)).toEqual(['laboratory house, edition 1']);
  await again.close();
});

test('a kept edition cannot be rewritten through the database, and verify finds one that was', async () => {
  const folder = join(root.path, 'spoilt');
  const { ledger } = await openLedger({ folder });
  await ledger.addRubric(edition(1));
  expect((await ledger.verify()).sound).toBe(true);
  await ledger.close();
  const bare = new Database(join(folder, LEDGER_FILE));
  for (const statement of ["UPDATE rubrics SET text = 'x'", 'DELETE FROM rubrics'])
    expect(() => bare.exec(statement)).toThrow('a kept edition is never rewritten');
  bare.exec("DROP TRIGGER rubrics_no_update; UPDATE rubrics SET text = 'x'");
  bare.close();
  const { ledger: again } = await openLedger({ folder, readOnly: true });
  const { sound, broken } = await again.verify();
  expect([sound, broken.map(({ assessment }) => assessment)]).toEqual([false, ['rubric house, edition 1']]);
  await again.close();
});
