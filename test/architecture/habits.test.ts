import { expect, test } from 'vitest';
import { maskSource } from '../../tools/source/mask-source.ts';
import { readRepositoryFile, repositoryFiles } from '../../tools/source/repository-files.ts';
import { undocumentedExports } from '../../tools/source/undocumented-exports.ts';

const codeFiles = ['src', 'tools', 'test', 'bench'].flatMap((folder) =>
  repositoryFiles(folder, (path) => /\.tsx?$/.test(path)),
);
const toolSettings = /^(?:vitest|vite)\.config\.ts$/;

/** Where does a pattern occur in code, comments and strings left out? */
function occurrences(pattern: RegExp, files: readonly string[]): readonly string[] {
  return files.flatMap((path) => {
    const lines = maskSource(readRepositoryFile(path), { strings: true }).split('\n');
    return lines.flatMap((line, index) => (pattern.test(line) ? [`${path}:${index + 1}`] : []));
  });
}

test('every exported declaration has a docstring', () => {
  const documentedFiles = codeFiles.filter((path) => !path.endsWith('.test.ts'));
  const missing = documentedFiles.flatMap((path) =>
    undocumentedExports(readRepositoryFile(path)).map(({ line, name }) => `${path}:${line} ${name}`),
  );
  expect(missing).toEqual([]);
});

test('there are no default exports', () => {
  const files = codeFiles.filter((path) => !toolSettings.test(path));
  expect(occurrences(/^export default\b|\bas default\b/, files)).toEqual([]);
});

test('tolerances go through the one helper, never through a raw closeness matcher', () => {
  expect(occurrences(/\.toBeCloseTo\b|\bcloseTo\(/, codeFiles)).toEqual([]);
});

test('no figure is merely truthy and no test is empty', () => {
  expect(
    occurrences(
      /\.toBeTruthy\(|\.toBeFalsy\(|=> \{\s*\}\);\s*$/,
      codeFiles.filter((path) => path.endsWith('.test.ts')),
    ),
  ).toEqual([]);
});

test('a skipped test names its issue on the same line', () => {
  const skipped = occurrences(/\b(?:test|it|describe)\.(?:skip|todo|fails)\b/, codeFiles);
  const unexplained = skipped.filter((place) => {
    const [path = '', line = '1'] = place.split(':');
    return !/issue \d+/.test(readRepositoryFile(path).split('\n')[Number(line) - 1] ?? '');
  });
  expect(unexplained).toEqual([]);
});
