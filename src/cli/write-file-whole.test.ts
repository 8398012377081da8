import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { writeFileWhole } from './write-file-whole.ts';

test('writeFileWhole replaces a file and leaves nothing else behind, even when it fails', () => {
  const folder = mkdtempSync(join(tmpdir(), 'unfasten-write-'));
  try {
    const path = join(folder, 'report.html');
    writeFileWhole(path, 'first');
    writeFileWhole(path, 'second 🔧');
    expect([readdirSync(folder), readFileSync(path, 'utf8')]).toEqual([['report.html'], 'second 🔧']);
    mkdirSync(join(folder, 'taken', 'inside'), { recursive: true });
    expect(() => writeFileWhole(join(folder, 'taken'), 'x')).toThrow();
    expect(readdirSync(folder).sort()).toEqual(['report.html', 'taken']);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
});
