// Bundles the command line into dist/unfasten.mjs (plus the chunks that commands load when called), links the
// executable, so that `npm ci` leaves `npx unfasten` working, and builds the page into dist/web. With --if-possible (npm's `prepare`) an absent bundler is
// no error as long as an earlier build is there, which is the case in `npm ci --omit=dev` on a packed tree.
import { existsSync, mkdirSync, readdirSync, rmSync, symlinkSync } from 'node:fs';
import { dirname, join, relative, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = resolve(dirname(fileURLToPath(import.meta.url)), '..');
const outputFolder = join(root, 'dist');
const bundle = join(outputFolder, 'unfasten.mjs');

const esbuild = await loadBundler();
if (esbuild !== undefined) {
  const result = await esbuild.build(buildOptions());
  removeStaleChunks(Object.keys(result.metafile.outputs).map((file) => resolve(root, file)));
}
linkExecutable();
await import('./build-web.mjs');

async function loadBundler() {
  try {
    return await import('esbuild');
  } catch (error) {
    const mayBeAbsent = process.argv.includes('--if-possible') && existsSync(bundle);
    if (error.code === 'ERR_MODULE_NOT_FOUND' && mayBeAbsent) return undefined;
    if (error.code !== 'ERR_MODULE_NOT_FOUND') throw error;
    console.error('The bundler is not installed and there is no earlier build: run `npm ci` without --omit=dev once.');
    process.exit(1);
  }
}

/** Splitting keeps YAML and schema code out of commands that do not read a record. */
function buildOptions() {
  return {
    absWorkingDir: root,
    entryPoints: { unfasten: 'src/cli/main.ts', 'rescore-worker': 'src/cli/rescore/rescore-worker.ts' },
    outdir: 'dist',
    outExtension: { '.js': '.mjs' },
    chunkNames: 'chunks/[name]-[hash]',
    bundle: true,
    splitting: true,
    format: 'esm',
    platform: 'node',
    target: 'node20.19',
    minify: true,
    keepNames: true,
    metafile: true,
    legalComments: 'linked',
    logLevel: 'warning',
    // A native module cannot be bundled; only the commands that open a ledger load it.
    external: ['better-sqlite3'],
    // commander and yaml ship CommonJS, whose require() of Node's own modules an ES module has to be given.
    banner: {
      js: "import{createRequire as unfastenRequire}from'node:module';const require=unfastenRequire(import.meta.url);",
    },
  };
}

function removeStaleChunks(current) {
  const folder = join(outputFolder, 'chunks');
  if (!existsSync(folder)) return;
  for (const name of readdirSync(folder)) {
    const file = join(folder, name);
    if (!current.includes(file)) rmSync(file, { force: true });
  }
}

/** npm links the executables of dependencies but not the root package's own; npx would otherwise install the root anew. */
function linkExecutable() {
  const binFolder = join(root, 'node_modules', '.bin');
  const link = join(binFolder, 'unfasten');
  if (process.platform === 'win32' || existsSync(link)) return;
  try {
    mkdirSync(binFolder, { recursive: true });
    symlinkSync(relative(binFolder, join(root, 'bin', 'unfasten.mjs')), link);
  } catch (error) {
    if (error.code !== 'EEXIST') throw error;
  }
}
