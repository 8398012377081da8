import { createHash } from 'node:crypto';
import { copyFileSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import Database from 'better-sqlite3';
import { afterAll, expect, test } from 'vitest';
import { runInProcess } from '../../../test/cli/run-in-process.ts';
import { temporaryFolder } from '../../../test/store-fixtures.ts';

const root = temporaryFolder('ledger-command');
afterAll(() => root.remove());
const example = (name: string) => fileURLToPath(new URL(`../../../examples/${name}`, import.meta.url));
const ledger = (...argv: readonly string[]) => runInProcess(['ledger', ...argv]);
let folders = 0;
const nextFolder = (): string => join(root.path, `f${folders++}`);

/** A data folder with the short example in it. */
const dataFolder = async (): Promise<string> => {
  const data = nextFolder();
  await ledger('import', example('quick-log'), '--data', data, '--author', 'J. K.');
  return data;
};

test('import, verify and export say what they did, and the folder comes out as it went in', async () => {
  const data = nextFolder();
  const imported = await ledger('import', example('quick-log'), '--data', data, '--author', 'J. K.');
  expect([imported.code, imported.out]).toEqual([
    0,
    expect.stringMatching(/^quick-log: revision 1, hash [0-9a-f]{64}; 1 files of evidence\.\n$/),
  ]);
  const verified = await ledger('verify', '--data', data);
  expect([verified.code, verified.out]).toEqual([
    0,
    expect.stringMatching(
      /holds to revision 1, hash [0-9a-f]{64}\nEverything holds: 1 assessments, 1 changes, 1 files/,
    ),
  ]);
  const out = nextFolder();
  const exported = await ledger('export', 'quick-log', '--out', out, '--data', data);
  expect([exported.code, exported.out]).toEqual([0, expect.stringContaining('byte for byte as it was imported')]);
  expect(readFileSync(join(out, 'assessment.yaml'), 'utf8')).toBe(
    readFileSync(join(example('quick-log'), 'assessment.yaml'), 'utf8'),
  );
});

test('verify --json names the first broken link of a change rewritten behind the ledger, with code 1', async () => {
  const data = await dataFolder();
  const database = new Database(join(data, 'ledger.sqlite'));
  database.exec("DROP TRIGGER changes_no_update; UPDATE changes SET author = 'somebody else'");
  database.close();
  const { code, out } = await ledger('verify', '--data', data, '--json');
  const what = expect.stringMatching(/^its content has the hash [0-9a-f]{64}, the ledger says [0-9a-f]{64}$/);
  expect([code, JSON.parse(out)]).toEqual([
    1,
    expect.objectContaining({ sound: false, broken: [{ assessment: 'quick-log', revision: 1, what }] }),
  ]);
});

test('verify finds a file of evidence whose bytes were changed, and one that is gone', async () => {
  const data = await dataFolder();
  const { out: before } = await ledger('verify', '--data', data, '--json');
  expect(JSON.parse(before).evidence).toEqual({ files: 1, damaged: [], lost: [], elsewhere: [] });
  const text = readFileSync(join(example('quick-log'), 'evidence', 'note.txt'));
  const name = createHash('sha256').update(text).digest('hex');
  writeFileSync(join(data, 'evidence', name.slice(0, 2), name), 'other');
  const { code, out } = await ledger('verify', '--data', data, '--json');
  expect([code, JSON.parse(out).evidence]).toEqual([1, { files: 1, damaged: [name], lost: [], elsewhere: [] }]);
  rmSync(join(data, 'evidence', name.slice(0, 2), name));
  const gone = await ledger('verify', '--data', data);
  expect([gone.code, gone.out]).toEqual([
    1,
    expect.stringContaining(`Evidence ${name}: it came in with quick-log and is gone.`),
  ]);
});

test('rebuild makes a kept document anew that was changed behind the ledger, and says so on the next opening', async () => {
  const data = await dataFolder();
  const database = new Database(join(data, 'ledger.sqlite'));
  database.exec("UPDATE heads SET document = replace(document, 'smartphone', 'laptop')");
  database.close();
  expect((await ledger('verify', '--data', data)).code).toBe(1);
  const { code, out, err } = await ledger('rebuild', '--data', data, '--json');
  expect([code, err]).toEqual([0, expect.stringContaining('since the kept document has another hash')]);
  expect(JSON.parse(out)).toEqual({ rebuilt: [{ assessment: 'quick-log', revision: 1, why: 'asked for' }] });
  expect((await ledger('verify', '--data', data)).code).toBe(0);
});

test('backup is a data folder of its own, replaces an earlier one, and never another file', async () => {
  const data = await dataFolder();
  const to = nextFolder();
  expect((await ledger('backup', '--data', data, '--to', to)).out).toContain('1 files copied, 0 were there');
  expect((await ledger('backup', '--data', data, '--to', to)).out).toContain('0 files copied, 1 were there');
  expect((await ledger('verify', '--data', to)).code).toBe(0);
  const note = nextFolder();
  mkdirSync(note);
  writeFileSync(join(note, 'ledger.sqlite'), 'a note of somebody');
  expect((await ledger('backup', '--data', data, '--to', note)).code).toBe(1);
  expect(readFileSync(join(note, 'ledger.sqlite'), 'utf8')).toBe('a note of somebody');
});

test.each([
  ['verify', '--data', 'nowhere-at-all'],
  ['export', 'nobody', '--out', 'x', '--data', 'nowhere-at-all'],
  ['verify'],
  ['import', 'nowhere-at-all', '--data', 'DATA'],
  ['export', 'quick-log', '--out', 'x', '--revision', 'last', '--data', 'DATA'],
])('ledger %s … used wrongly ends with 2 and a line that says what to do', async (...argv) => {
  const data = argv.includes('DATA') ? await dataFolder() : '';
  const { code, err } = await ledger(...argv.map((word) => (word === 'DATA' ? data : word)));
  expect([code, err.trim().split('\n').length >= 1, /\n\s+at /.test(err)]).toEqual([2, true, false]);
});

test('a damaged page ends in a line that names verify and the backup, not in a trace', async () => {
  const data = await dataFolder();
  const file = join(data, 'ledger.sqlite');
  copyFileSync(file, `${file}.whole`);
  const bytes = readFileSync(file);
  bytes.fill(0x5a, 4096, bytes.length);
  writeFileSync(file, bytes);
  const { code, err } = await ledger('export', 'quick-log', '--out', nextFolder(), '--data', data);
  expect([code, err]).toEqual([1, expect.stringMatching(/damaged.*`unfasten ledger verify`.*backup/)]);
  const verified = await ledger('verify', '--data', data);
  expect([verified.code, verified.out]).toEqual([1, expect.stringContaining('The file is damaged')]);
});
