import { readdirSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';

/** Where does the package begin? Absolute path of its root folder. */
export const repositoryRoot = resolve(fileURLToPath(new URL('../..', import.meta.url)));

const skipped = new Set(['node_modules', 'dist', 'out', 'coverage', '.git']);

/** Which files does the package hold, below one of its folders? Paths from the root with forward slashes, sorted. */
export function repositoryFiles(folder = '.', accept: (path: string) => boolean = () => true): readonly string[] {
  const found: string[] = [];
  const walk = (relative: string): void => {
    for (const entry of readdirSync(join(repositoryRoot, relative), { withFileTypes: true })) {
      if (skipped.has(entry.name)) continue;
      const path = relative === '.' ? entry.name : `${relative}/${entry.name}`;
      if (entry.isDirectory()) walk(path);
      else if (entry.isFile() && accept(path)) found.push(path);
    }
  };
  walk(folder);
  return found.sort();
}

/** What does a file of the package say? UTF-8 text. */
export function readRepositoryFile(path: string): string {
  return readFileSync(join(repositoryRoot, path), 'utf8');
}
