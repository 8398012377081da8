// Start of the command line against a bare Node: whole processes, in turn, medians and their ratio.
import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';

const executable = fileURLToPath(new URL('../../bin/unfasten.mjs', import.meta.url));
const wall = (argv: readonly string[]): number => {
  const start = performance.now();
  spawnSync(process.execPath, [...argv], { stdio: 'ignore' });
  return performance.now() - start;
};
const median = (figures: readonly number[]): number =>
  [...figures].sort((a, b) => a - b)[Math.floor(figures.length / 2)] ?? 0;

const bare: number[] = [];
const version: number[] = [];
const help: number[] = [];
for (let run = 0; run < 15; run++) {
  bare.push(wall(['-e', '0']));
  version.push(wall([executable, '--version']));
  help.push(wall([executable, '--help']));
}
const base = median(bare);
console.log('| command | median ms | ratio to `node -e 0` | target |\n| --- | --- | --- | --- |');
console.log(`| node -e 0 | ${base.toFixed(0)} | 1 | - |`);
console.log(`| unfasten --version | ${median(version).toFixed(0)} | ${(median(version) / base).toFixed(2)} | 2.5 |`);
console.log(`| unfasten --help | ${median(help).toFixed(0)} | ${(median(help) / base).toFixed(2)} | - |`);
