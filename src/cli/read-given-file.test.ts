import { mkdirSync, mkdtempSync, rmSync, truncateSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, test } from 'vitest';
import { limits } from '#record/limits';
import { runInProcess } from '../../test/cli/run-in-process.ts';
import { readGivenFile } from './read-given-file.ts';

const root = mkdtempSync(join(tmpdir(), 'unfasten-given-'));
afterAll(() => rmSync(root, { recursive: true }));

test('a file that an option names is read as it is', () => {
  const path = join(root, 'small.yaml');
  writeFileSync(path, 'a: 1\n');
  const { fileName, bytes } = readGivenFile(path, 'small');
  expect([fileName, String(bytes)]).toEqual(['small', 'a: 1\n']);
});

test('a file above the limit is refused by its size, before it is read', () => {
  const path = join(root, 'large.yaml');
  writeFileSync(path, '');
  truncateSync(path, limits.fileBytes + 1);
  expect(() => readGivenFile(path)).toThrow('limit fileBytes');
});

test.each(['--laboratory', '--odds', '--rubric'])('%s with a folder is a wrong use, not a fault', async (option) => {
  const folder = join(root, option);
  mkdirSync(folder);
  const argv = option === '--rubric' ? ['rubric', 'examples/gust-2'] : ['questions', 'examples/beck-11', '--top', '1'];
  const { code, err } = await runInProcess([...argv, option, folder]);
  expect(`${code} ${err}`).toContain(`2 ${folder}: This is a folder, not a file`);
});
