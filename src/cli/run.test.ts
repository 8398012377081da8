import { expect, test } from 'vitest';
import { UnfastenError } from '#quantity/unfasten-error';
import { collectingStreams } from '../../test/collecting-streams.ts';
import type { CommandEntry } from './command-list.ts';
import { run } from './run.ts';

interface Transcript {
  readonly code: number;
  readonly out: string;
  readonly err: string;
}

async function runWith(
  argv: readonly string[],
  commands: readonly CommandEntry[] = [],
  environment: Record<string, string> = {},
): Promise<Transcript> {
  const { streams, out, err } = collectingStreams({ environment });
  const code = await run({ argv, version: '9.8.7', streams, now: () => 0, commands });
  return { code, out: out(), err: err() };
}

function commandThat(action: () => void): CommandEntry {
  return {
    name: 'measure',
    summary: 'measure a thing',
    load: async () => (command) => {
      command.option('--json', 'print JSON').action(action);
    },
  };
}

function commandThatThrows(error: unknown): CommandEntry {
  return commandThat(() => {
    throw error;
  });
}

test('run prints the version alone on standard output', async () => {
  expect(await runWith(['--version'])).toEqual({ code: 0, out: '9.8.7\n', err: '' });
});

test('run prints help with every command, an example and the exit codes', async () => {
  const { code, out, err } = await runWith(['--help'], [commandThat(() => undefined)]);
  expect([code, err]).toEqual([0, '']);
  expect(out).toContain('measure a thing');
  expect(out).toContain('$ unfasten check');
  expect(out).toContain('Exit codes: 0 fine');
});

test('run loads only the command that is called', async () => {
  const unloadable: CommandEntry = {
    name: 'heavy',
    summary: 'never loaded',
    load: () => Promise.reject(new Error('loaded')),
  };
  const { code } = await runWith(['measure'], [commandThat(() => undefined), unloadable]);
  expect(code).toBe(0);
  expect((await runWith(['heavy'], [unloadable])).code).toBe(3);
});

test('run answers an unknown command and an unknown option with code 2 and a suggestion', async () => {
  const commands = [commandThat(() => undefined)];
  const wrongCommand = await runWith(['mesure'], commands);
  expect([wrongCommand.code, wrongCommand.out]).toEqual([2, '']);
  expect(wrongCommand.err).toContain('Did you mean measure?');
  const wrongOption = await runWith(['measure', '--jsn'], commands);
  expect(wrongOption.code).toBe(2);
  expect(wrongOption.err).toContain('Did you mean --json?');
});

test('run turns a fault of the record into its place, value and remedy, and code 1', async () => {
  const details = { where: 'parts.p1.mass', value: '3 s', remedy: 'Write a mass.' };
  const commands = [commandThatThrows(new UnfastenError('quantity', 'This is a time', details))];
  const text = await runWith(['measure'], commands);
  expect(text).toEqual({ code: 1, out: '', err: 'parts.p1.mass: This is a time (found "3 s"). Write a mass.\n' });
  const json = await runWith(['measure', '--json'], commands);
  expect(JSON.parse(json.out)).toEqual({
    error: {
      kind: 'quantity',
      what: 'This is a time',
      where: 'parts.p1.mass',
      value: '"3 s"',
      remedy: 'Write a mass.',
    },
  });
});

test('run answers a product outside the scheme with its article and code 1', async () => {
  const details = {
    where: 'product.category',
    value: 'vacuum',
    remedy: 'Use another scheme.',
    article: 'Article 1(1)',
  };
  const commands = [commandThatThrows(new UnfastenError('out-of-scope', 'A vacuum is not covered', details))];
  const { code, out } = await runWith(['measure', '--json'], commands);
  expect([code, JSON.parse(out)]).toEqual([1, { outOfScope: 'A vacuum is not covered', article: 'Article 1(1)' }]);
});

test('run calls a missing file a wrong use, with the path', async () => {
  const missing = Object.assign(new Error('ENOENT: no such file'), { code: 'ENOENT', path: 'nowhere.yaml' });
  const { code, err } = await runWith(['measure'], [commandThatThrows(missing)]);
  expect(code).toBe(2);
  expect(err).toContain('nowhere.yaml: There is no such file or folder');
});

test('run owns up to an unexpected error with code 3 and shows the trace only when asked', async () => {
  const commands = [commandThatThrows(new TypeError('x is undefined'))];
  const plain = await runWith(['measure'], commands);
  expect(plain.code).toBe(3);
  expect(plain.err).toContain('This is a fault in unfasten, not in your record: TypeError: x is undefined.');
  expect(plain.err).not.toContain('    at ');
  const debugged = await runWith(['measure'], commands, { UNFASTEN_DEBUG: '1' });
  expect(debugged.err).toContain('    at ');
});
