import { randomUUID } from 'node:crypto';
import { readFileSync, writeFileSync } from 'node:fs';
import { mkdir, readdir } from 'node:fs/promises';
import { join } from 'node:path';
import { afterAll, expect, test } from 'vitest';
import type { Json } from '#record/patch/operation';
import { AT, changeOf, temporaryFolder } from '../../../test/store-fixtures.ts';
import { openEvidence } from '../open-evidence.ts';
import { openLedger } from '../open-ledger.ts';
import { filesBelow } from './evidence-names.ts';
import { exportFolder } from './export-folder.ts';
import { importFolder } from './import-folder.ts';

const root = temporaryFolder('evidence-names');
afterAll(() => root.remove());

const stored = async (name: string) => {
  const folder = join(root.path, name);
  return { ledger: (await openLedger({ folder })).ledger, evidence: openEvidence(folder) };
};
type Stores = Awaited<ReturnType<typeof stored>>;

const taken = (stores: Stores, folder: string) =>
  importFolder(stores, { folder, assessment: 'tarn-5', change: randomUUID(), author: 'J. K.', at: AT });

/** A folder with one remark and one photograph, as an assessor keeps it. */
const folderWith = async (name: string, files: Readonly<Record<string, string>>): Promise<string> => {
  const folder = join(root.path, name);
  await mkdir(join(folder, 'evidence'), { recursive: true });
  const head = 'format: unfasten/assessment\nversion: 1\nproduct: { name: x } # the one on the bench\n';
  writeFileSync(join(folder, 'assessment.yaml'), `${head}evidence:\n  p: { kind: photo, file: back.jpg } # the back\n`);
  for (const [file, text] of Object.entries(files)) writeFileSync(join(folder, 'evidence', file), text);
  return folder;
};

/** Puts texts on record as photographs of these names, all by one change. */
const recorded = async ({ ledger, evidence }: Stores, photographs: readonly (readonly [string, string, string])[]) => {
  const patch = [];
  for (const [key, file, text] of photographs) {
    const { sha256 } = await evidence.put(oneChunk(text));
    const value: Json = { kind: 'photo', file, sha256 };
    patch.push({ op: 'add', path: `/evidence/${key}`, value } as const);
  }
  await ledger.append(changeOf(1, patch));
};

const oneChunk = async function* (text: string) {
  yield Buffer.from(text);
};

/** Every file of evidence of a folder with its text, and the text of its document. */
const contents = async (folder: string) => ({
  document: readFileSync(join(folder, 'assessment.yaml'), 'utf8'),
  files: Object.fromEntries(
    (await filesBelow(join(folder, 'evidence'))).map((name) => [
      name,
      readFileSync(join(folder, 'evidence', name), 'utf8'),
    ]),
  ),
});

/** What lies there for each record of evidence, by the name its document gives. */
const byRecord = async (stores: Stores, { files }: { readonly files: Readonly<Record<string, string>> }) => {
  const { evidence = {} } = (await stores.ledger.head('tarn-5')).document;
  return Object.fromEntries(Object.entries(evidence).map(([key, { file }]) => [key, files[file ?? '']]));
};

const NAMES: readonly (readonly [string, readonly [string, string]])[] = [
  ['the same', ['back.jpg', 'back.jpg']],
  ['other case', ['BACK.jpg', 'Back.JPG']],
  ['letters composed otherwise', ['r\u00fcckseite.jpg', 'ru\u0308ckseite.jpg']],
  ['a file where another needs a folder', ['back.jpg/one', 'back.jpg']],
  ['as long as a name may be', [`${'a'.repeat(196)}.jpg`, `${'A'.repeat(196)}.jpg`]],
];

test.each(NAMES)(
  'two photographs and an imported one all come out, named so that none hides another: %s',
  async (is, of) => {
    const stores = await stored(`data ${is}`);
    await taken(stores, await folderWith(`in ${is}`, { 'back.jpg': 'imported' }));
    await recorded(stores, [
      ['a', of[0], 'first'],
      ['b', of[1], 'second'],
      ['c', of[1], 'second'],
    ]);
    const out = join(root.path, `out ${is}`);
    const exported = await exportFolder(stores, { assessment: 'tarn-5', folder: out });
    await stores.ledger.close();
    const first = await contents(out);
    expect(Object.values(first.files).sort()).toEqual(['first', 'imported', 'second']);
    const plain = Object.keys(first.files).map((name) => name.normalize('NFC').toLowerCase());
    expect(new Set(plain).size).toBe(3);
    expect(first.files['back.jpg']).toBe('imported');
    expect(exported).toMatchObject({ manner: 'edited', missing: [] });
    expect(first.document).toContain('# the back\n');

    const again = await stored(`data again ${is}`);
    expect((await taken(again, out)).problems).toEqual([]);
    expect(await byRecord(again, first)).toEqual({ p: 'imported', a: 'first', b: 'second', c: 'second' });
    const back = join(root.path, `back ${is}`);
    const second = await exportFolder(again, { assessment: 'tarn-5', folder: back });
    await again.ledger.close();
    expect(second).toMatchObject({ manner: 'as-imported', renamed: [] });
    expect(await contents(back)).toEqual(first);
  },
);

test('names do not depend on the order in which records came, and say what they were', async () => {
  const named = async (order: readonly ['a' | 'b', 'a' | 'b']) => {
    const stores = await stored(`order ${order.join('')}`);
    await taken(stores, await folderWith(`in ${order.join('')}`, {}));
    await recorded(
      stores,
      order.map((key) => [key, 'side.jpg', key] as const),
    );
    const out = join(root.path, `out ${order.join('')}`);
    const { renamed } = await exportFolder(stores, { assessment: 'tarn-5', folder: out });
    await stores.ledger.close();
    return { renamed, files: (await contents(out)).files };
  };
  const one = await named(['a', 'b']);
  expect(one.renamed).toEqual([{ was: 'side.jpg', now: expect.stringMatching(/^side-[0-9a-f]{12}\.jpg$/) }]);
  expect(one.files['side.jpg']).toBe('a');
  expect(await named(['b', 'a'])).toEqual(one);
});

test('a file that a record replaced keeps its content beside the new one; what is not held is missing and renames nothing', async () => {
  const stores = await stored('replaced');
  await taken(stores, await folderWith('in replaced', { 'back.jpg': 'imported' }));
  const { sha256 } = await stores.evidence.put(oneChunk('better'));
  await stores.ledger.append(
    changeOf(1, [
      { op: 'add', path: '/evidence/p/sha256', value: sha256 },
      { op: 'add', path: '/evidence/q', value: { kind: 'photo', file: 'back.jpg', sha256: '0'.repeat(64) } },
    ]),
  );
  const out = join(root.path, 'out replaced');
  const { missing } = await exportFolder(stores, { assessment: 'tarn-5', folder: out });
  await stores.ledger.close();
  expect(missing).toEqual(['back.jpg']);
  const { files, document } = await contents(out);
  expect(files['back.jpg']).toBe('better');
  expect(Object.values(files).sort()).toEqual(['better', 'imported']);
  expect(document.match(/back\.jpg/g)).toHaveLength(2);
  expect(await readdir(out)).toEqual(['assessment.yaml', 'evidence']);
});
