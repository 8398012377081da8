import { expect, test } from 'vitest';
import { brokenLinks } from '../../tools/source/broken-links.ts';
import { readRepositoryFile, repositoryFiles } from '../../tools/source/repository-files.ts';

const pages = repositoryFiles('.', (path) => path.endsWith('.md'));

test('every link of every page leads somewhere', () => {
  const broken = pages.flatMap((path) => brokenLinks(path, readRepositoryFile(path)));
  expect(broken.map(({ file, line, target, why }) => `${file}:${line} ${target}: ${why}`)).toEqual([]);
});

test('decisions are numbered without gap or repeat', () => {
  const numbers = pages.flatMap((path) => /^docs\/decisions\/(\d{4})-[a-z0-9-]+\.md$/.exec(path)?.[1] ?? []);
  expect(numbers).toEqual(numbers.map((_, index) => String(index + 1).padStart(4, '0')));
  expect(numbers.length).toBeGreaterThanOrEqual(5);
});

test('every folder of the architecture stands in the guide for contributors with its arrow', () => {
  const guide = readRepositoryFile('CONTRIBUTING.md');
  const folders = [
    'quantity',
    'record',
    'routes',
    'schemes',
    'swaps',
    'verdict',
    'report',
    'store',
    'server',
    'cli',
    'web',
  ];
  expect(folders.filter((folder) => !guide.includes(`${folder}/`))).toEqual([]);
});
