import { createHash } from 'node:crypto';
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { collectingStreams } from '../../../test/collecting-streams.ts';
import { scoreSheetX } from '../../../test/records/score-sheet-x.ts';
import { smallRecord } from '../../../test/records/small-record.ts';
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
  const first = await report('examples/beck-11', '--no-outlook', '--out', target, '--json');
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
  expect((await report('examples/beck-11', '--no-outlook', '--out', target, '--json')).out).toBe(first.out);
});

test('report says in words what it found and where it wrote it', async () => {
  const { code, out } = await report('examples/beck-11', '--no-outlook', '--out', folder);
  expect(code).toBe(0);
  expect(out).toContain("Beck 11: assessor's determination.");
  expect(out).toContain(join(folder, 'report.html'));
});

test('report out of scope writes the report that says so with the article, and ends with code 1 as index does', async () => {
  const target = join(folder, 'outside');
  const { code, out } = await report('examples/gust-2', '--out', target);
  expect(code).toBe(1);
  expect(out).toContain(
    'Out of scope: a cordless-vacuum is neither a smartphone nor a slate tablet (Regulation (EU) 2023/1669, Article 1).',
  );
  expect(out).toContain(join(target, 'report.html'));
  const page = readFileSync(join(target, 'report.html'), 'utf8');
  expect(page).toContain('Outside the scheme.');
  expect(page).toContain('Regulation (EU) 2023/1669, Article 1');
  const json = await report('examples/gust-2', '--out', target, '--json');
  const { files, ...rest } = JSON.parse(json.out) as { files: unknown[] };
  expect([json.code, files.length]).toEqual([1, 4]);
  expect(rest).toEqual({
    outOfScope: 'a cordless-vacuum is neither a smartphone nor a slate tablet',
    article: 'Regulation (EU) 2023/1669, Article 1',
  });
});

test('report with an open scope names what is missing and ends with code 0', async () => {
  const { code, out } = await report('examples/quick-log', '--no-outlook', '--out', join(folder, 'open'));
  expect(code).toBe(0);
  expect(out).toContain('Scope open: whether the scheme covers the product is not settled.');
  expect(out).toContain('  whether the main display can be rolled up: not recorded');
});

test('report says what can still move, the same twice, and leaves it out when told to', async () => {
  const battery = { steps: 8, fastener: 'resupplied', tool: 'basic', remoteActions: undefined };
  const file = join(folder, 'sheet.json');
  writeFileSync(file, JSON.stringify(scoreSheetX({ parts: { battery } })));
  const pages: string[] = [];
  for (const [index, options] of [[], [], ['--no-outlook']].entries()) {
    const target = join(folder, `sheet-${index}`);
    expect((await report(file, ...options, '--out', target)).code).toBe(0);
    pages.push(readFileSync(join(target, 'report.html'), 'utf8'));
  }
  const [first = '', second, without = ''] = pages;
  expect(first).toBe(second);
  expect(first.replace(/<[^>]+>/g, ' ')).toContain(
    'how many remote actions the battery needs besides the declared steps: 2',
  );
  expect([first.includes('id="outlook"'), without.includes('id="outlook"')]).toEqual([true, false]);
});

test('report of a public sheet alone says that nothing is known of single parts, with no empty table', async () => {
  const sheet = { SDD: '4.45', SF: '4.05', ST: '4.10', SSP: '4.00', SSU: '5.00', SRI: '3.00' };
  const file = join(folder, 'public.json');
  writeFileSync(file, JSON.stringify(smallRecord({ product: { publicSheet: sheet } })));
  const target = join(folder, 'public');
  expect((await report(file, '--out', target)).code).toBe(0);
  const page = readFileSync(join(target, 'report.html'), 'utf8');
  expect(page).toContain('Of single parts nothing is on record: a public sheet gives scores alone.');
  expect(page).not.toContain('<th scope="col" rowspan="2">priority part</th>');
});

test('report writes nothing when the record cannot be read', async () => {
  const target = join(folder, 'untouched');
  const { code, err } = await report('examples/nowhere', '--out', target);
  expect([code, readdirSync(folder).includes('untouched')]).toEqual([2, false]);
  expect(err).toContain('There is no such file or folder');
});
