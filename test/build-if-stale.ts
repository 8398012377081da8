import { execFileSync } from 'node:child_process';
import { readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('..', import.meta.url));
const BUILT = ['dist/unfasten.mjs', 'dist/web/index.html'];
/** What the command line and the page are made of. */
const MADE_OF = ['src', 'rubrics', 'tools/build.mjs', 'tools/build-web.mjs', 'package.json', 'vite.config.ts'];

/**
 * Builds the command line and the page where either is older than anything it is made of. `npm ci` builds both, so that only
 * changed sources cost time; `provide-browser.ts` calls it before the workers start, since two must not build at once.
 */
export const buildIfStale = (): void => {
  const made = Math.min(...BUILT.map((path) => changed(join(root, path)) ?? 0));
  const newest = Math.max(...MADE_OF.flatMap((path) => filesUnder(join(root, path))).map((path) => changed(path) ?? 0));
  if (newest > made) execFileSync(process.execPath, [join(root, 'tools', 'build.mjs')], { cwd: root, stdio: 'pipe' });
};

const changed = (path: string): number | undefined => statSync(path, { throwIfNoEntry: false })?.mtimeMs;

const filesUnder = (path: string): readonly string[] => {
  if (!statSync(path).isDirectory()) return [path];
  const entries = readdirSync(path, { recursive: true, withFileTypes: true });
  return entries.filter((entry) => entry.isFile()).map((entry) => join(entry.parentPath, entry.name));
};
