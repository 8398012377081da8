import { spawn } from 'node:child_process';
import { readFileSync, realpathSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { repositoryRoot } from '../../tools/source/repository-files.ts';
import { builtExecutable, runCommandLine } from '../command-line.ts';

const { version } = JSON.parse(readFileSync(join(repositoryRoot, 'package.json'), 'utf8')) as { version: string };

test.each(['--version', '-V'])('unfasten %s prints the package version alone', (flag) => {
  expect(runCommandLine([flag])).toEqual({ code: 0, out: `${version}\n`, err: '' });
});

test('unfasten --help comes from the bundle and shows examples', () => {
  const { code, out, err } = runCommandLine(['--help']);
  expect([code, err]).toEqual([0, '']);
  expect(out).toContain('Usage: unfasten');
  expect(out).toContain('Examples:');
});

test('the build links the executable where npx looks first', () => {
  const link = join(repositoryRoot, 'node_modules', '.bin', 'unfasten');
  expect(realpathSync(link)).toBe(realpathSync(builtExecutable()));
});

test('unfasten writes no escape sequences when its output is no terminal', () => {
  const { out, err } = runCommandLine(['frobnicate'], { environment: { FORCE_COLOR: '1' } });
  expect(`${out}${err}`.includes('\u001b')).toBe(false);
});

test('a reader that closes early ends unfasten quietly', async () => {
  const child = spawn(process.execPath, [builtExecutable(), '--help'], { stdio: ['ignore', 'pipe', 'pipe'] });
  const said: string[] = [];
  child.stderr.on('data', (bytes) => said.push(String(bytes)));
  child.stdout.destroy();
  const code = await new Promise((resolve) => child.on('close', resolve));
  expect([code, said.join('')]).toEqual([0, '']);
});
