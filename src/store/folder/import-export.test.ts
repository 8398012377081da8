import { randomUUID } from 'node:crypto';
import { cpSync, mkdirSync, readdirSync, readFileSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, expect, test } from 'vitest';
import { seedRecord } from '../../../test/faults/seed-record.ts';
import { AT, changeOf, temporaryFolder } from '../../../test/store-fixtures.ts';
import { openEvidence } from '../open-evidence.ts';
import { openLedger } from '../open-ledger.ts';
import { filesBelow, isPlainFileName } from './evidence-names.ts';
import { exportFolder } from './export-folder.ts';
import { importFolder } from './import-folder.ts';

const root = temporaryFolder('folders');
afterAll(() => root.remove());
const examples = fileURLToPath(new URL('../../../examples/', import.meta.url));

const openStores = async (name: string) => {
  const folder = join(root.path, name);
  return { ledger: (await openLedger({ folder })).ledger, evidence: openEvidence(folder) };
};

const importOf = (folder: string, assessment: string) => ({
  folder,
  assessment,
  change: randomUUID(),
  author: 'J. K.',
  at: AT,
});

test.each(['beck-11', 'gust-2', 'quick-log', 'tarn-4', 'tarn-5'])(
  'import and export of %s without a change gives the same bytes, evidence included',
  async (name) => {
    const stores = await openStores(`round-${name}`);
    await importFolder(stores, importOf(join(examples, name), name));
    const out = join(root.path, `out-${name}`);
    const { manner, missing } = await exportFolder(stores, { assessment: name, folder: out });
    await stores.ledger.close();
    expect([manner, missing]).toEqual(['as-imported', []]);
    const read = (path: string) => readFileSync(path, 'base64');
    expect(read(join(out, 'assessment.yaml'))).toBe(read(join(examples, name, 'assessment.yaml')));
    const files = await filesBelow(join(examples, name, 'evidence'));
    expect(await filesBelow(join(out, 'evidence'))).toEqual(files);
    for (const file of files)
      expect(read(join(out, 'evidence', file))).toBe(read(join(examples, name, 'evidence', file)));
  },
);

test('after a change only the changed line differs in the exported file', async () => {
  const stores = await openStores('changed');
  await importFolder(stores, importOf(join(examples, 'tarn-5'), 'tarn-5'));
  await stores.ledger.append(changeOf(1, [{ op: 'replace', path: '/product/price', value: '629 EUR' }]));
  const out = join(root.path, 'out-changed');
  expect(await exportFolder(stores, { assessment: 'tarn-5', folder: out })).toMatchObject({
    manner: 'edited',
    revision: 2,
  });
  const older = readFileSync(join(examples, 'tarn-5', 'assessment.yaml'), 'utf8');
  expect(readFileSync(join(out, 'assessment.yaml'), 'utf8')).toBe(older.replace('price: 649 EUR', 'price: 629 EUR'));
  const first = join(root.path, 'out-first');
  expect(await exportFolder(stores, { assessment: 'tarn-5', folder: first, revision: 1 })).toMatchObject({
    manner: 'as-imported',
  });
  await stores.ledger.close();
});

test('a folder in JSON goes in and out byte for byte', async () => {
  const folder = join(root.path, 'json');
  mkdirSync(folder);
  const text = `${JSON.stringify(seedRecord(), undefined, '\t')}\n`;
  writeFileSync(join(folder, 'assessment.json'), text);
  const stores = await openStores('json-data');
  await importFolder(stores, importOf(folder, 'json'));
  const out = join(root.path, 'out-json');
  await exportFolder(stores, { assessment: 'json', folder: out });
  await stores.ledger.close();
  expect(readFileSync(join(out, 'assessment.json'), 'utf8')).toBe(text);
});

test('what merely contradicts itself is taken and reported; a broken shape or text is refused', async () => {
  const stores = await openStores('problems');
  const folderWith = (name: string, text: string) => {
    mkdirSync(join(root.path, name));
    writeFileSync(join(root.path, name, 'assessment.yaml'), text);
    return importOf(join(root.path, name), name);
  };
  const head = 'format: unfasten/assessment\nversion: 1\nproduct: { name: x }\n';
  const dangling = await importFolder(stores, folderWith('dangling', `${head}parts: { a: { within: b } }\n`));
  expect(dangling.problems.map(({ kind }) => kind)).toContain('unknown-reference');
  await expect(importFolder(stores, folderWith('shape', `${head}nowhere: 1\n`))).rejects.toMatchObject({
    kind: 'change',
  });
  await expect(importFolder(stores, folderWith('text', `${head}  - [\n`))).rejects.toMatchObject({ kind: 'record' });
  expect((await stores.ledger.shelf()).map(({ assessment }) => assessment)).toEqual(['dangling']);
  await stores.ledger.close();
});

test('an export never writes over anything and follows no name out of its folder', async () => {
  const stores = await openStores('names');
  const folder = join(root.path, 'named');
  cpSync(join(examples, 'quick-log'), folder, { recursive: true });
  symlinkSync('/etc/hostname', join(folder, 'evidence', 'outside'));
  const { evidence } = await importFolder(stores, importOf(folder, 'named'));
  expect(evidence).toEqual(['note.txt']);
  const sha256 = (await stores.evidence.list())[0] ?? '';
  const item = { kind: 'note', sha256, file: '../../out.txt' } as const;
  await stores.ledger.append(changeOf(1, [{ op: 'add', path: '/evidence/x', value: item }], { assessment: 'named' }));
  const out = join(root.path, 'out-named');
  expect((await exportFolder(stores, { assessment: 'named', folder: out })).missing).toEqual(['../../out.txt']);
  expect(readdirSync(root.path)).not.toContain('out.txt');
  await expect(exportFolder(stores, { assessment: 'named', folder: out })).rejects.toMatchObject({ kind: 'usage' });
  await stores.ledger.close();
});

test.each(['..', '.', 'a/../b', '/a', 'a//b', 'a\\b', 'a\u0000', 'C:x', 'a/', ' a', '...'])(
  '%j is no name of a file',
  (name) => {
    expect(isPlainFileName(name)).toBe(false);
  },
);
