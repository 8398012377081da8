import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, test } from 'vitest';
import { collectingStreams } from '../../../test/collecting-streams.ts';
import { seedRecord } from '../../../test/faults/seed-record.ts';
import { run } from '../run.ts';

const root = mkdtempSync(join(tmpdir(), 'unfasten-check-'));
afterAll(() => rmSync(root, { recursive: true }));

const folderWith = (name: string, files: Readonly<Record<string, string>>): string => {
  const folder = join(root, name);
  for (const [file, text] of Object.entries(files)) {
    mkdirSync(join(folder, file, '..'), { recursive: true });
    writeFileSync(join(folder, file), text);
  }
  return folder;
};

const unfasten = async (...argv: readonly string[]) => {
  const { streams, out, err } = collectingStreams();
  const code = await run({ argv, version: '0.0.0', streams, now: () => 0 });
  return { code, out: out(), err: err() };
};

const record = (change: Readonly<Record<string, unknown>> = {}): string =>
  JSON.stringify({ ...seedRecord(), ...change });

test('check of a sound folder says so and ends with 0', async () => {
  const folder = folderWith('sound', { 'assessment.json': record() });
  expect(await unfasten('check', folder)).toEqual({
    code: 0,
    out: `${folder}/assessment.json: no errors, no warnings.\n`,
    err: '',
  });
});

test('check prints file, line, column, path, what, value and remedy, and ends with 1', async () => {
  const folder = folderWith('faulty', {
    'assessment.yaml': 'format: unfasten/assessment\nversion: 1\nproduct:\n  nam: x\n',
  });
  const { code, out } = await unfasten('check', folder);
  const file = `${folder}/assessment.yaml`;
  expect([code, out.split('\n')]).toEqual([
    1,
    [
      `${file}:3:1 product/name: error: the field "name" is missing. Add it: a text is expected.`,
      `${file}:4:3 product/nam: error: there is no field "nam" here ("nam"). Did you mean "name"?`,
      '',
      `${file}: 2 errors, no warnings.`,
      '',
    ],
  ]);
});

test('check --json gives problems and counts', async () => {
  const folder = folderWith('json', { 'assessment.json': record({ nowhere: 1 }) });
  const { code, out } = await unfasten('check', folder, '--json');
  const { problems, counts } = JSON.parse(out);
  expect([code, counts, problems[0]]).toEqual([
    1,
    { errors: 1, warnings: 0 },
    expect.objectContaining({ line: 1, path: 'nowhere', kind: 'unknown-field', severity: 'error' }),
  ]);
});

test('check compares evidence files with their SHA-256 and takes no path out of evidence/', async () => {
  const evidence = {
    same: { kind: 'note', file: 'a.txt', sha256: 'ca978112ca1bbdcafac231b39a23dc4da786eff8147c4e72b9807785afee48bb' },
    other: { kind: 'note', file: 'a.txt', sha256: '0'.repeat(64) },
    missing: { kind: 'note', file: 'b.txt' },
    outside: { kind: 'note', file: '../a.txt' },
    sheet: { kind: 'document' },
    clip: { kind: 'video' },
  };
  const folder = folderWith('evidence', { 'assessment.json': record({ evidence }), 'evidence/a.txt': 'a' });
  const { out } = await unfasten('check', folder, '--json');
  const found = JSON.parse(out).problems.map(
    (problem: { path: string; severity: string }) => `${problem.path} ${problem.severity}`,
  );
  expect(found).toEqual([
    'evidence/other/sha256 error',
    'evidence/missing/file warning',
    'evidence/outside/file error',
  ]);
});

test('check of a path without an assessment, or with two, is used wrongly', async () => {
  const empty = folderWith('empty', { 'readme.txt': 'x' });
  const double = folderWith('double', { 'assessment.json': record(), 'assessment.yaml': 'x' });
  expect((await unfasten('check', empty)).code).toBe(2);
  expect((await unfasten('check', double)).code).toBe(2);
  expect((await unfasten('check', join(root, 'nowhere'))).code).toBe(2);
});

test('check shows no control characters of a hostile file', async () => {
  const folder = folderWith('escape', { 'assessment.json': record({ '\u001b[31mred\u202e': 1 }) });
  const { out } = await unfasten('check', folder);
  expect([out.includes('\u001b'), out.includes('\u202e'), out.includes('red')]).toEqual([false, false, true]);
});

test('schema prints the JSON Schema, and the reference with --docs', async () => {
  expect(JSON.parse((await unfasten('schema')).out)).toMatchObject({ $id: 'urn:unfasten:assessment:1' });
  expect((await unfasten('schema', '--docs')).out).toMatch(/^# The record\n/);
});
