import { execFileSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { pureFolders } from '../../tools/source/arrows.ts';
import { impuritiesIn } from '../../tools/source/impurities.ts';
import { readRepositoryFile, repositoryFiles, repositoryRoot } from '../../tools/source/repository-files.ts';

const isPureSource = (path: string) =>
  path.endsWith('.ts') && !path.endsWith('.test.ts') && pureFolders.includes(path.split('/')[1] ?? '');

test('pure folders depend on no clock, chance, locale or time zone', () => {
  const found = repositoryFiles('src', isPureSource).flatMap((path) =>
    impuritiesIn(readRepositoryFile(path)).map(({ line, found: what, why }) => `${path}:${line} ${what} ${why}`),
  );
  expect(found).toEqual([]);
});

function typeErrorsOf(source: string): string {
  mkdirSync(join(repositoryRoot, 'out'), { recursive: true });
  const folder = mkdtempSync(join(repositoryRoot, 'out', 'purity-'));
  try {
    writeFileSync(join(folder, 'probe.ts'), source);
    const settings = {
      extends: '../../tsconfig.pure.json',
      include: ['probe.ts', '../../tools/universal-globals.d.ts'],
    };
    writeFileSync(join(folder, 'tsconfig.json'), JSON.stringify(settings));
    const compiler = join(repositoryRoot, 'node_modules', '.bin', 'tsc');
    execFileSync(compiler, ['-p', folder], { encoding: 'utf8', stdio: 'pipe' });
    return '';
  } catch (error) {
    return String((error as { stdout?: string }).stdout);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

test.each([
  ['document', 'export const title = document.title;'],
  ['process', 'export const home = process.env;'],
  ['fetch', "export const page = fetch('https://example.org');"],
  ['node:fs', "import { readFileSync } from 'node:fs';\nexport const read = readFileSync;"],
  ['performance', 'export const now = performance.now();'],
  ['crypto', 'export const id = crypto.randomUUID();'],
])('the compiler pass over the pure folders refuses %s', (name, source) => {
  expect(typeErrorsOf(source)).toContain(name);
});

test('the compiler pass over the pure folders accepts code that needs nothing', () => {
  expect(typeErrorsOf('export const bytes = new TextEncoder().encode("x");')).toBe('');
});
