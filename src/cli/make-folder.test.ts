import { mkdtempSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { collectingStreams } from '../../test/collecting-streams.ts';
import { makeFolder } from './make-folder.ts';
import { run } from './run.ts';

const inFolder = async (work: (folder: string) => unknown): Promise<void> => {
  const folder = mkdtempSync(join(tmpdir(), 'unfasten-folder-'));
  try {
    await work(folder);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
};

test('makeFolder makes every missing level, and takes one that is there', () =>
  inFolder((folder) => {
    const deep = join(folder, 'a', 'b', 'c');
    makeFolder(deep);
    makeFolder(deep);
    expect(statSync(deep).isDirectory()).toBe(true);
  }));

test.runIf(process.platform === 'linux')('makeFolder returns from a file system that takes no new folder', () => {
  expect(() => makeFolder('/proc/none/inside')).toThrow('ENOENT');
});

test.each(['report', 'rescore'])('%s --out with a file in the way is used wrongly', (command) =>
  inFolder(async (folder) => {
    const file = join(folder, 'taken');
    writeFileSync(file, '');
    const { streams, err } = collectingStreams();
    const argv = [command, 'examples/tarn-5', '--out', join(file, 'inside')];
    expect(await run({ argv, version: '0', streams, now: () => 0 })).toBe(2);
    expect(err()).toContain(
      `${join(file, 'inside')}: A file stands where a folder is to be (found "${file}"). Name another folder`,
    );
  }),
);
