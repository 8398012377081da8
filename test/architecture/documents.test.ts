import { expect, test } from 'vitest';
import { assessment } from '#record/schema/assessment';
import { brokenLinks } from '../../tools/source/broken-links.ts';
import { readRepositoryFile, repositoryFiles } from '../../tools/source/repository-files.ts';

/** Fields of the document itself, not collections of facts. */
const documentHead = ['format', 'version', 'title', 'invented'];

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

test('the glossary has every collection of the record', () => {
  const glossary = readRepositoryFile('docs/names.md');
  const collections = Object.keys(assessment.shape).filter((key) => !documentHead.includes(key));
  expect(collections.length).toBeGreaterThan(10);
  expect(collections.filter((name) => !glossary.includes(`\`${name}\``))).toEqual([]);
});
