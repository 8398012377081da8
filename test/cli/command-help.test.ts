import { expect, test } from 'vitest';
import { commandList } from '../../src/cli/command-list.ts';
import { runInProcess } from './run-in-process.ts';

/** The commands of commands, which the overview shows under one name. */
const INNER: Readonly<Record<string, readonly string[]>> = {
  swaps: ['plan', 'next', 'diagnose', 'simulate'],
  ledger: ['verify', 'import', 'export', 'backup', 'rebuild'],
};

const calls = commandList.flatMap(({ name }) => [[name], ...(INNER[name] ?? []).map((inner) => [name, inner])]);

test.each(calls.map((call) => [call.join(' '), call] as const))(
  'unfasten %s --help has an example',
  async (_, call) => {
    const { code, out, err } = await runInProcess([...call, '--help']);
    expect([code, err]).toEqual([0, '']);
    expect(out).toContain(`Usage: unfasten ${call.join(' ')}`);
    expect(out).toContain('Examples:');
  },
);
