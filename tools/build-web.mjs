// Builds the page into dist/web. Called by tools/build.mjs; with --if-possible an absent builder is no error as long as
// an earlier build is there, as for the command line.
import { existsSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = resolve(dirname(fileURLToPath(import.meta.url)), '..');
const page = join(root, 'dist', 'web', 'index.html');

// The page is always the one that is shipped: a test run calls itself `test`, for which the builder would take the view
// library's development code, half as large again and slower.
process.env.NODE_ENV = 'production';
const vite = await loadVite();
if (vite !== undefined) await vite.build({ configFile: join(root, 'vite.config.ts'), logLevel: 'warn' });

async function loadVite() {
  try {
    const [builder] = await Promise.all([import('vite'), import('@vitejs/plugin-react')]);
    return builder;
  } catch (error) {
    const mayBeAbsent = process.argv.includes('--if-possible') && existsSync(page);
    if (error.code === 'ERR_MODULE_NOT_FOUND' && mayBeAbsent) return undefined;
    if (error.code !== 'ERR_MODULE_NOT_FOUND') throw error;
    console.error(
      'The page builder is not installed and there is no earlier page: run `npm ci` without --omit=dev once.',
    );
    process.exit(1);
  }
}
