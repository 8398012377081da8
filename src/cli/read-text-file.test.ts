import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, test } from 'vitest';
import { decodeText, readTextFile } from './read-text-file.ts';

const folder = mkdtempSync(join(tmpdir(), 'unfasten-read-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

test('readTextFile drops a byte order mark and keeps the rest', () => {
  const path = join(folder, 'mark.txt');
  writeFileSync(path, '\ufeffa: µ\n');
  expect(readTextFile(path)).toBe('a: µ\n');
});

test('readTextFile refuses a file over the limit by name and size', () => {
  const path = join(folder, 'long.txt');
  writeFileSync(path, 'x'.repeat(11));
  expect(() => readTextFile(path, 10)).toThrowError(
    expect.objectContaining({ kind: 'file', details: expect.objectContaining({ where: path, value: '11 bytes' }) }),
  );
  expect(readTextFile(path, 11)).toHaveLength(11);
});

test('decodeText names UTF-16 and other encodings instead of guessing', () => {
  const utf16 = () => decodeText(new Uint8Array([0xff, 0xfe, 0x61, 0x00]), 'a.yaml');
  expect(utf16).toThrowError(
    expect.objectContaining({
      details: { where: 'a.yaml', value: 'UTF-16 byte order mark', remedy: 'Save it as UTF-8.' },
    }),
  );
  expect(() => decodeText(new Uint8Array([0x61, 0xe4]), 'a.yaml')).toThrowError(/not UTF-8/);
});
