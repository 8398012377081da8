// `npm start`: builds what is missing or older than its sources, then opens the bench application over `bench-data/`, with
// the invented examples in it the first time. Arguments are passed on to `unfasten serve`.
import { spawn, spawnSync } from 'node:child_process';
import { existsSync, readdirSync, statSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = resolve(dirname(fileURLToPath(import.meta.url)), '..');
const executable = join(root, 'bin', 'unfasten.mjs');
const built = [join(root, 'dist', 'unfasten.mjs'), join(root, 'dist', 'web', 'index.html')];
const examples = ['tarn-5', 'tarn-4', 'beck-11', 'gust-2', 'quick-log'].map((name) => join(root, 'examples', name));

if (isStale()) {
  const { status } = spawnSync(process.execPath, [join(root, 'tools', 'build.mjs')], { cwd: root, stdio: 'inherit' });
  if (status !== 0) process.exit(status ?? 3);
}
const own = process.argv.slice(2);
const data = own.includes('--data') ? [] : ['--data', join(root, 'bench-data')];
const argv = [executable, 'serve', ...data, '--demo', ...examples, ...(isAtScreen() ? ['--open'] : []), ...own];
const server = spawn(process.execPath, argv, { cwd: root, stdio: 'inherit' });
for (const signal of ['SIGINT', 'SIGTERM']) process.on(signal, () => server.kill(signal));
server.on('close', (status) => process.exit(status ?? 3));

/** A page is only opened where somebody sits: on a terminal, and not in a test run. */
function isAtScreen() {
  return process.stdout.isTTY === true && process.env.CI === undefined;
}

function isStale() {
  if (!built.every((file) => existsSync(file))) return true;
  const oldest = Math.min(...built.map((file) => statSync(file).mtimeMs));
  return newestIn(join(root, 'src')) > oldest;
}

function newestIn(folder) {
  let newest = 0;
  for (const entry of readdirSync(folder, { withFileTypes: true, recursive: true }))
    if (entry.isFile()) newest = Math.max(newest, statSync(join(entry.parentPath, entry.name)).mtimeMs);
  return newest;
}
