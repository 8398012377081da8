import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, test } from 'vitest';
import { readTextFile } from './read-text-file.ts';

const folder = mkdtempSync(join(tmpdir(), 'unfasten-read-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

function fileOf(name: string, content: string | Uint8Array): string {
  const path = join(folder, name);
  writeFileSync(path, content);
  return path;
}

test('readTextFile drops a byte order mark and keeps the rest', () => {
  expect(readTextFile(fileOf('mark.txt', '\ufeffa: µ\n'))).toBe('a: µ\n');
});

test('readTextFile refuses a file over the limit by name and size', () => {
  const path = fileOf('long.txt', 'x'.repeat(11));
  expect(() => readTextFile(path, 10)).toThrowError(
    expect.objectContaining({ kind: 'file', details: expect.objectContaining({ where: path, value: '11 bytes' }) }),
  );
  expect(readTextFile(path, 11)).toHaveLength(11);
});

test('readTextFile names another encoding instead of guessing', () => {
  const path = fileOf('wide.txt', new Uint8Array([0xff, 0xfe, 0x61, 0x00]));
  expect(() => readTextFile(path)).toThrowError(
    expect.objectContaining({ kind: 'file', message: expect.stringContaining('UTF-16') }),
  );
});
