import { createHash } from 'node:crypto';
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { collectingStreams } from '../../../test/collecting-streams.ts';
import { run } from '../run.ts';

let folder: string;

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'unfasten-report-command-'));
});

afterAll(() => rmSync(folder, { recursive: true, force: true }));

async function report(
  ...argv: readonly string[]
): Promise<{ readonly code: number; readonly out: string; readonly err: string }> {
  const { streams, out, err } = collectingStreams();
  const code = await run({ argv: ['report', ...argv], version: '9.8.7', streams, now: () => 0 });
  return { code, out: out(), err: err() };
}

test('report writes four files whole, says where, and writes the same bytes again', async () => {
  const target = join(folder, 'new', 'place');
  const first = await report('examples/gust-2', '--out', target, '--json');
  expect([first.code, first.err]).toEqual([0, '']);
  const { files } = JSON.parse(first.out) as { files: { path: string; bytes: number; sha256: string }[] };
  expect(files.map(({ path }) => path)).toEqual(
    ['report.html', 'verdict.json', 'steps.csv', 'fasteners.csv'].map((name) => join(target, name)),
  );
  for (const { path, bytes, sha256 } of files) {
    const content = readFileSync(path);
    expect([content.length, createHash('sha256').update(content).digest('hex')]).toEqual([bytes, sha256]);
  }
  expect(readdirSync(target).length).toBe(4);
  expect((await report('examples/gust-2', '--out', target, '--json')).out).toBe(first.out);
});

test('report says in words what it found and where it wrote it', async () => {
  const { code, out } = await report('examples/gust-2', '--out', folder);
  expect(code).toBe(0);
  expect(out).toContain("Gust 2: assessor's determination.");
  expect(out).toContain('Outside the scheme:');
  expect(out).toContain(join(folder, 'report.html'));
});

test('report writes nothing when the record cannot be read', async () => {
  const target = join(folder, 'untouched');
  const { code, err } = await report('examples/nowhere', '--out', target);
  expect([code, readdirSync(folder).includes('untouched')]).toEqual([2, false]);
  expect(err).toContain('There is no such file or folder');
});
