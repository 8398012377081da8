// `npm start`: until the application exists it computes the demo assessment, prints its verdict, writes the report and
// says where. Arguments: another assessment folder than the demo's.
import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { basename, dirname, join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = resolve(dirname(fileURLToPath(import.meta.url)), '..');
const folder = process.argv[2] ?? join('examples', 'tarn-5');
const executable = join(root, 'bin', 'unfasten.mjs');

if (!existsSync(join(root, 'dist', 'unfasten.mjs'))) runOrStop([join(root, 'tools', 'build.mjs')]);
runOrStop([executable, 'index', folder]);
runOrStop([executable, 'report', folder, '--out', join('out', basename(folder))]);

function runOrStop(argv) {
  const { status } = spawnSync(process.execPath, argv, { cwd: root, stdio: 'inherit' });
  if (status !== 0) process.exit(status ?? 3);
}
