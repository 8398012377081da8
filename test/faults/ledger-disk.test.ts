import { chmodSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { afterAll, expect, test } from 'vitest';
import type { UnfastenError } from '#quantity/unfasten-error';
import type { Ledger } from '#store/ledger';
import { openLedger } from '#store/open-ledger';
import { addEntry, changeOf, newAssessment, temporaryFolder } from '../store-fixtures.ts';

const root = temporaryFolder('disk');
afterAll(() => root.remove());
let folders = 0;
const nextFolder = (): string => join(root.path, `d${folders++}`);

/** A data folder with one assessment and some changes, closed. */
const filledFolder = async (changes = 3): Promise<string> => {
  const folder = nextFolder();
  const { ledger } = await openLedger({ folder });
  await ledger.create(newAssessment());
  for (let revision = 1; revision <= changes; revision += 1)
    await ledger.append(changeOf(revision, [addEntry(`n${revision}`, revision)]));
  await ledger.close();
  return folder;
};

const refusal = async (promise: Promise<unknown>): Promise<UnfastenError> => {
  try {
    await promise;
  } catch (error) {
    return error as UnfastenError;
  }
  throw new Error('It was not refused.');
};

/** Fills the database until SQLite itself says that it is full. */
const fill = async (ledger: Ledger): Promise<{ readonly last: number; readonly error: UnfastenError }> => {
  for (let last = (await ledger.head('tarn-5')).revision; ; last += 1) {
    const note = { op: 'add', path: `/notes/full-${last}`, value: { text: 'x'.repeat(8_000) } } as const;
    try {
      await ledger.append(changeOf(last, [note]));
    } catch (error) {
      return { last, error: error as UnfastenError };
    }
  }
};

test('a full disk (SQLITE_FULL): a clear line, nothing acknowledged, everything before it there', async () => {
  const folder = await filledFolder();
  const { ledger } = await openLedger({ folder, maxPages: 60 });
  const { last, error } = await fill(ledger);
  expect([error.kind, error.message, error.details.value]).toEqual([
    'storage',
    'The disk is full: the change was not taken',
    'SQLITE_FULL',
  ]);
  expect((await ledger.head('tarn-5')).revision).toBe(last);
  expect((await ledger.verify()).sound).toBe(true);
  await ledger.close();
  const again = await openLedger({ folder });
  expect((await again.ledger.head('tarn-5')).revision).toBe(last);
  expect(await again.ledger.append(changeOf(last, [addEntry('after', 1)]))).toMatchObject({ revision: last + 1 });
  await again.ledger.close();
});

test.each([
  ['a text file', 'notes of somebody, not a database\n'.repeat(200)],
  ['a text shorter than a header', 'x'],
])('%s in place of the ledger is refused and stays as it is', async (_, text) => {
  const folder = nextFolder();
  mkdirSync(folder);
  writeFileSync(join(folder, 'ledger.sqlite'), text);
  const error = await refusal(openLedger({ folder }));
  expect([error.kind, error.message]).toEqual(['ledger', 'The file in place of the ledger is none: it is no database']);
  expect(readFileSync(join(folder, 'ledger.sqlite'), 'utf8')).toBe(text);
});

test("another application's database is refused and stays as it is", async () => {
  const folder = nextFolder();
  mkdirSync(folder);
  const file = join(folder, 'ledger.sqlite');
  const other = new Database(file);
  other.exec('CREATE TABLE changes (a); INSERT INTO changes VALUES (1)');
  other.close();
  const before = readFileSync(file, 'base64');
  const error = await refusal(openLedger({ folder }));
  expect([error.kind, error.message]).toEqual([
    'ledger',
    "The file in place of the ledger is none: it is another application's database",
  ]);
  expect(readFileSync(file, 'base64')).toBe(before);
});

test('a folder in place of the ledger is refused', async () => {
  const folder = nextFolder();
  mkdirSync(join(folder, 'ledger.sqlite'), { recursive: true });
  expect((await refusal(openLedger({ folder }))).kind).toBe('ledger');
});

test('a ledger that a newer program wrote is refused and stays as it is', async () => {
  const folder = await filledFolder();
  const file = join(folder, 'ledger.sqlite');
  const newer = new Database(file);
  newer.pragma('user_version = 99');
  newer.pragma('wal_checkpoint(TRUNCATE)');
  newer.close();
  const before = readFileSync(file, 'base64');
  const error = await refusal(openLedger({ folder }));
  expect([error.kind, error.message]).toEqual(['ledger', 'A newer unfasten has written this ledger']);
  expect(readFileSync(file, 'base64')).toBe(before);
});

test('every damaged page is either found with a line that names verify, or harmless to every acknowledged change', async () => {
  const folder = await filledFolder(40);
  const file = join(folder, 'ledger.sqlite');
  const whole = readFileSync(file);
  const pageSize = whole.readUInt16BE(16);
  const found: string[] = [];
  for (let page = 1; page < whole.length / pageSize; page += 1) {
    const damaged = Buffer.from(whole);
    damaged.fill(0xa5, page * pageSize, (page + 1) * pageSize);
    const place = nextFolder();
    mkdirSync(place);
    writeFileSync(join(place, 'ledger.sqlite'), damaged);
    const { ledger } = await openLedger({ folder: place, readOnly: true });
    const { sound, heads } = await ledger.verify();
    await ledger.close();
    if (sound) expect(heads[0]?.revision, `page ${page}`).toBe(41);
    found.push(sound ? 'harmless' : 'found');
    if (sound) continue;
    const reading = openLedger({ folder: place }).then(async (opened) => {
      const all = await opened.ledger.changes('tarn-5', 0).finally(() => opened.ledger.close());
      return all.length;
    });
    const outcome = await reading.catch((error: UnfastenError) => `${error.kind}: ${error.details.remedy}`);
    // Either all changes can be read (an index or a kept document was hit), or the refusal says what to do.
    expect(
      outcome === 41 || /^ledger: .*`unfasten ledger verify`/.test(String(outcome)),
      `page ${page}: ${outcome}`,
    ).toBe(true);
  }
  expect(found).toContain('found');
});

/** Does work as a user who may not write: for the time of it root becomes an ordinary user, whom file modes bind. */
const asReader = async <T>(work: () => Promise<T>): Promise<T> => {
  const isRoot = process.geteuid?.() === 0;
  if (isRoot) process.seteuid?.(65_534);
  try {
    return await work();
  } finally {
    if (isRoot) process.seteuid?.(0);
  }
};

test('a folder that may not be written is refused in words, and what is in it stays', async () => {
  const folder = await filledFolder();
  const before = readFileSync(join(folder, 'ledger.sqlite'), 'base64');
  chmodSync(root.path, 0o755);
  for (const name of readdirSync(folder)) chmodSync(join(folder, name), 0o444);
  chmodSync(folder, 0o555);
  const error = await asReader(() => refusal(openLedger({ folder })));
  const missing = await asReader(() => refusal(openLedger({ folder: join(folder, 'new') })));
  chmodSync(folder, 0o755);
  const message = 'The data folder may not be written by this program';
  expect([error.kind, error.message]).toEqual(['storage', message]);
  expect([missing.kind, missing.message]).toEqual(['storage', message]);
  expect(readFileSync(join(folder, 'ledger.sqlite'), 'base64')).toBe(before);
});
