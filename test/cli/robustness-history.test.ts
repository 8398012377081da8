import { cpSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { openLedger } from '#store/open-ledger';
import { runInProcess } from './run-in-process.ts';

const examples = fileURLToPath(new URL('../../examples', import.meta.url));
const folder = mkdtempSync(join(tmpdir(), 'unfasten-robust-'));
const [archive, data] = [join(folder, 'archive'), join(folder, 'data')];

interface Share {
  readonly drawn: { readonly of: string; readonly id: string };
  readonly withOthers: { readonly share: number };
}

beforeAll(() => {
  mkdirSync(archive);
  for (const name of ['tarn-4', 'beck-11', 'gust-2'])
    cpSync(join(examples, name, 'assessment.yaml'), join(archive, `${name}.yaml`));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

test('robustness gives widths, possible and drawn places, pairs, and the index of what is in scope', async () => {
  const argv = ['robustness', archive, '--vary', '10%', '--samples', '40', '--seed', '3'];
  const { code, out } = await runInProcess([...argv, '--json']);
  const found = JSON.parse(out);
  expect([code, found.vary, found.items.length, found.pairs.length]).toEqual([0, '10%', 3, 6]);
  for (const { possible, drawn, scored, first } of found.items) {
    expect(drawn.best).toBeGreaterThanOrEqual(possible.best);
    expect(drawn.worst).toBeLessThanOrEqual(possible.worst);
    expect([scored, first <= 40]).toEqual([40, true]);
  }
  expect(new Set(found.index.map(({ item }: { item: string }) => item))).toEqual(
    new Set(['beck-11.yaml', 'tarn-4.yaml']),
  );
  const { out: text } = await runInProcess(argv);
  expect(text).toMatch(/over 40 samples with seed 3: rank 1 in \d+ of 40, ranks \d/);
  expect(text).toContain('Nothing is implied about how likely a weight or a fact is.');
  expect((await runInProcess(argv)).out).toBe(text);
  expect((await runInProcess(['robustness', archive, '--vary', '100%'])).code).toBe(2);
});

test('robustness --spread says whose the spread of a score is, and what the shares mean', async () => {
  const argv = ['robustness', join(archive, 'gust-2.yaml'), '--samples', '60', '--seed', '3', '--spread'];
  const { out: json } = await runInProcess([...argv, '--json']);
  const [{ spread }] = JSON.parse(json).spreads;
  const totals = new Map<string, number>(
    spread.shares.map(({ drawn, withOthers }: Share) => [`${drawn.of} ${drawn.id}`, withOthers.share]),
  );
  // What no criterion of this product looks at moves nothing; the one fact worth most points moves most.
  expect([...totals.keys()][0]).toBe('metric information/end-users');
  expect([totals.get('weight display-depth'), totals.get('metric steps/display/best')]).toEqual([0, 0]);
  const { code, out } = await runInProcess(argv);
  expect(code).toBe(0);
  expect(out).toContain('\nWhose the spread is. Alone: by how much the variance of the score would shrink in the mean');
  expect(out).toMatch(/\n {2}\d+ % ± \d+ +\d+ % ± \d+ +open fact: .*information/i);
  expect((await runInProcess(argv)).out).toBe(out);
});

test('history says who changed what and why, and which figures moved with it', async () => {
  await runInProcess(['ledger', 'import', join(examples, 'tarn-4'), '--data', data]);
  const { ledger } = await openLedger({ folder: data });
  const [item] = await ledger.shelf();
  const assessment = item?.assessment ?? '';
  const change = (number: number, note: string, patch: Parameters<typeof ledger.append>[0]['patch']) =>
    ledger.append({
      assessment,
      change: `00000000-0000-4000-8000-00000000000${number}`,
      author: 'A. B.',
      at: '2026-11-25T12:00:00+00:00',
      note,
      base: number,
      patch,
    });
  await change(1, 'a better title', [{ op: 'add', path: '/title', value: 'Another title' }]);
  await change(2, 'the maker cut its promise', [
    { op: 'add', path: '/supply/software/security', value: { years: 5, standing: 'established' } },
  ]);
  await ledger.close();
  const { out } = await runInProcess(['history', assessment, '--data', data, '--json']);
  const { changes } = JSON.parse(out);
  const seen = changes.map(({ revision, note, touched }: Record<string, unknown>) => [revision, note, touched]);
  expect(seen.slice(1)).toEqual([
    [2, 'a better title', ['title']],
    [3, 'the maker cut its promise', ['supply/software/security']],
  ]);
  expect(changes[1].moves).toBeUndefined();
  expect(changes[2].moves.length).toBeGreaterThan(0);
  expect(changes[2].moves[0].before).not.toBe(changes[2].moves[0].after);
  const { out: text } = await runInProcess(['history', assessment, '--data', data, '--last', '1']);
  expect(text).toMatch(
    /^Every figure worked out anew .* by method eu-2023-1669\/\d+: not what was printed then\.\n3 {2}2026-11-25T12:00:00\+00:00 {2}A\. B\.: the maker cut its promise\n {4}touched supply\/software\/security\n/,
  );
  expect(text).toMatch(/: R .* → R /);
  const laboratory = join(folder, 'laboratory.yaml');
  writeFileSync(
    laboratory,
    'format: unfasten/laboratory\nversion: 1\nid: q\nname: Quayside Bench\nedition: 1\ndate: 2026-11-01\ninterpretations:\n' +
      '  unplugging: { reading: by-itself, reason: a plug is a thing, by: M. R., on: 2026-10-20 }\n',
  );
  const argv = ['history', assessment, '--data', data, '--last', '1'];
  const { out: read } = await runInProcess([...argv, '--laboratory', laboratory]);
  expect(read).toContain('\nReadings of the laboratory Quayside Bench (edition 1) hold where the record chose none.\n');
  expect(read.split('\n').at(-2)).not.toBe(text.split('\n').at(-2));
});
