#!/usr/bin/env node
import { readFileSync } from 'node:fs';
import nodeModule from 'node:module';

const { version } = JSON.parse(readFileSync(new URL('../package.json', import.meta.url), 'utf8'));
const onlyArgument = process.argv.length === 3 ? process.argv[2] : undefined;

if (onlyArgument === '--version' || onlyArgument === '-V') {
  process.stdout.write(`${version}\n`);
} else {
  // From Node 22.1 on: compiled code is kept between calls.
  nodeModule.enableCompileCache?.();
  const commandLine = await loadCommandLine();
  await commandLine?.main(version);
}

async function loadCommandLine() {
  try {
    return await import('../dist/unfasten.mjs');
  } catch (error) {
    if (error?.code !== 'ERR_MODULE_NOT_FOUND') throw error;
    process.stderr.write('unfasten has not been built yet: run `npm run build` in its folder.\n');
    process.exitCode = 3;
    return undefined;
  }
}
