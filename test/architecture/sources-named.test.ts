import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { readRepositoryFile, repositoryFiles, repositoryRoot } from '../../tools/source/repository-files.ts';

const headLines = 25;
const sourceLine = /(?:^|[\s/*#>"|-])source"?\s*:\s*\S/im;

/** Does a text name its source near its top? Tables do it with title and identifier, JSON with a top-level `source`. */
function namesItsSource(path: string, text: string): boolean {
  if (path.endsWith('.json')) {
    const { source } = JSON.parse(text) as { source?: unknown };
    return typeof source === 'string' ? source.trim() !== '' : source !== null && typeof source === 'object';
  }
  const head = text.split('\n').slice(0, headLines).join('\n');
  return sourceLine.test(head) || (/^title:/m.test(head) && /^identifier: *\S/m.test(head));
}

test.each(['references', 'test/published'])('every file under %s names its source', (folder) => {
  const files = existsSync(join(repositoryRoot, folder)) ? repositoryFiles(folder) : [];
  expect(files.filter((path) => !namesItsSource(path, readRepositoryFile(path)))).toEqual([]);
});

test('namesItsSource refuses a file that only talks about sources', () => {
  expect(namesItsSource('a.ts', '// We have a source for this.\n')).toBe(false);
  expect(namesItsSource('a.ts', '/**\n * Source: Regulation (EU) 2023/1669, Annex IV.\n */')).toBe(true);
  expect(namesItsSource('a.json', '{"note":"source: x"}')).toBe(false);
  expect(namesItsSource('a.yaml', 'source: Teunter 2006\n')).toBe(true);
  expect(namesItsSource('a.yaml', 'title: A law\nidentifier: OJ L 214, p. 9\n')).toBe(true);
  expect(namesItsSource('a.yaml', 'title: A law\n')).toBe(false);
});
