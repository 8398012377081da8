import { expect, test } from 'vitest';
import { readRepositoryFile, repositoryFiles } from '../../tools/source/repository-files.ts';

const isCode = (path: string) => /\.(?:ts|tsx|mjs)$/.test(path);
const isData = (path: string, text: string) => path.startsWith('references/') || /^\/[/*]+\s*Generated\b/m.test(text);
const folders = ['src', 'tools', 'test', 'bin', 'bench'];

const sizes = folders
  .flatMap((folder) => repositoryFiles(folder, isCode))
  .map((path) => ({ path, text: readRepositoryFile(path) }))
  .map(({ path, text }) => ({ path, text, lines: text.split('\n').length - 1 }));

test('no file is past 500 lines but tables and generated code', () => {
  const long = sizes.filter(({ path, text, lines }) => lines > 500 && !isData(path, text));
  expect(long.map(({ path, lines }) => `${path}: ${lines} lines`)).toEqual([]);
});

test('a file past 300 lines says why in a line that begins "Long because:"', () => {
  const long = sizes.filter(({ path, text, lines }) => lines > 300 && !isData(path, text));
  const silent = long.filter(({ text }) => !/^\s*(?:\/\/|\*)\s*Long because: \S/m.test(text));
  expect(silent.map(({ path, lines }) => `${path}: ${lines} lines`)).toEqual([]);
});

test('half of the source files have 120 lines or fewer', () => {
  const source = sizes.filter(({ path }) => path.startsWith('src/') && !path.endsWith('.test.ts'));
  const sorted = source.map(({ lines }) => lines).sort((a, b) => a - b);
  expect(sorted[Math.floor((sorted.length - 1) / 2)]).toBeLessThanOrEqual(120);
});
