import { expect, test } from 'vitest';
import { arrows } from '../../tools/source/arrows.ts';
import { checkImports, folderOf, type SourceTree } from '../../tools/source/import-check.ts';
import { circlesIn, fileGraph, folderGraph } from '../../tools/source/import-circles.ts';
import { readRepositoryFile, repositoryFiles } from '../../tools/source/repository-files.ts';

const isSource = (path: string) => /\.(?:tsx?|css)$/.test(path);
const tree: SourceTree = new Map(repositoryFiles('src', isSource).map((path) => [path, readRepositoryFile(path)]));

test('every import follows the arrows', () => {
  const problems = checkImports(tree).map(({ file, line, specifier, why }) => `${file}:${line} ${specifier}: ${why}`);
  expect(problems).toEqual([]);
});

test('no files load each other in a circle', () => {
  expect(circlesIn(fileGraph(tree, { types: false })).map((circle) => circle.join(' → '))).toEqual([]);
});

test('no folders import each other in a circle, types included', () => {
  expect(circlesIn(folderGraph(fileGraph(tree, { types: true }))).map((circle) => circle.join(' → '))).toEqual([]);
});

test('every folder of src stands in the table of arrows and has its subpath in package.json', () => {
  const folders = [...new Set([...tree.keys()].map((path) => folderOf(path) ?? 'src itself'))];
  expect(folders.filter((folder) => arrows[folder] === undefined)).toEqual([]);
  const { imports } = JSON.parse(readRepositoryFile('package.json')) as { imports: Record<string, string> };
  const mapped = folders.filter((folder) => imports[`#${folder}/*`] === `./src/${folder}/*.ts`);
  expect(mapped).toEqual(folders);
});
