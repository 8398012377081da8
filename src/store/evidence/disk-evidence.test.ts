import { createHash } from 'node:crypto';
import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, expect, test } from 'vitest';
import { temporaryFolder } from '../../../test/store-fixtures.ts';
import { openEvidence } from '../open-evidence.ts';

const root = temporaryFolder('evidence');
afterAll(() => root.remove());

async function* chunks(...parts: readonly string[]): AsyncGenerator<Uint8Array> {
  for (const part of parts) yield Buffer.from(part);
}

async function* breaking(): AsyncGenerator<Uint8Array> {
  yield Buffer.from('half');
  throw new Error('the sender went away');
}

const shaOf = (text: string): string => createHash('sha256').update(text).digest('hex');
const unfinished = (folder: string): readonly string[] => readdirSync(join(folder, 'evidence', 'unfinished'));

test('a stream is stored under its SHA-256, byte for byte, and the same content again is the same file', async () => {
  const folder = join(root.path, 'same');
  const evidence = openEvidence(folder);
  const sha256 = shaOf('abcdef');
  expect(await evidence.put(chunks('abc', 'def'))).toEqual({ sha256, bytes: 6, repeated: false });
  expect(await evidence.put(chunks('abcdef'))).toEqual({ sha256, bytes: 6, repeated: true });
  expect(readFileSync(join(folder, 'evidence', sha256.slice(0, 2), sha256), 'utf8')).toBe('abcdef');
  expect([await evidence.list(), unfinished(folder)]).toEqual([[sha256], []]);
});

test('a stored file is read whole or in part', async () => {
  const evidence = openEvidence(join(root.path, 'read'));
  const { sha256 } = await evidence.put(chunks('0123456789'));
  const read = async (range?: { start: number; end: number }) =>
    Buffer.concat(await (await evidence.open(sha256, range)).toArray()).toString();
  expect([await read(), await read({ start: 2, end: 4 })]).toEqual(['0123456789', '234']);
});

test('a stream over the limit, or one that breaks off, leaves nothing behind', async () => {
  const folder = join(root.path, 'broken');
  const evidence = openEvidence(folder);
  await expect(evidence.put(chunks('12345', '67890'), 9)).rejects.toMatchObject({ kind: 'change' });
  await expect(evidence.put(breaking())).rejects.toThrow('the sender went away');
  expect([await evidence.list(), unfinished(folder)]).toEqual([[], []]);
});

test.each([
  '',
  '..',
  '../../etc/passwd',
  `../${'a'.repeat(64)}`,
  'A'.repeat(64),
  `${'a'.repeat(64)}\u0000`,
  `${'a'.repeat(63)}/`,
])('a name that is no SHA-256 (%j) reaches no file', async (name) => {
  const evidence = openEvidence(join(root.path, 'names'));
  await expect(evidence.find(name)).rejects.toMatchObject({ kind: 'not-in-ledger' });
  await expect(evidence.open(name)).rejects.toMatchObject({ kind: 'not-in-ledger' });
});

test('a file in place of the folder is refused in words, and stays', async () => {
  const folder = join(root.path, 'wrong');
  mkdirSync(folder);
  writeFileSync(join(folder, 'evidence'), 'a note');
  await expect(openEvidence(folder).put(chunks('x'))).rejects.toMatchObject({ kind: 'storage' });
  expect(readFileSync(join(folder, 'evidence'), 'utf8')).toBe('a note');
});

test('tidy takes away drafts that a crash left, and nothing else', async () => {
  const folder = join(root.path, 'tidy');
  const evidence = openEvidence(folder);
  const { sha256 } = await evidence.put(chunks('kept'));
  writeFileSync(join(folder, 'evidence', 'unfinished', 'draft'), 'half');
  expect([await evidence.tidy(), unfinished(folder), await evidence.list()]).toEqual([1, [], [sha256]]);
});
