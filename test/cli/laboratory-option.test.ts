import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, expect, test } from 'vitest';
import { runInProcess } from './run-in-process.ts';

const root = mkdtempSync(join(tmpdir(), 'unfasten-laboratory-'));
afterAll(() => rmSync(root, { recursive: true, force: true }));

const example = readFileSync(fileURLToPath(new URL('../../examples/tarn-4/assessment.yaml', import.meta.url)), 'utf8');
const OTHERS = '  unplugging: { value: by-itself, reason: own }\n  reheating: { value: once-per-place, reason: own }\n';
/** The example as it is, and the same with the laboratory's readings chosen in the record. */
const [plain, chosen] = [join(root, 'archive', 'plain.yaml'), join(root, 'chosen.yaml')];
mkdirSync(join(root, 'archive'));
writeFileSync(plain, example);
writeFileSync(chosen, example.replace('\ninterpretations:\n', `\ninterpretations:\n${OTHERS}`));

const file = join(root, 'laboratory.yaml');
writeFileSync(
  file,
  `format: unfasten/laboratory
version: 1
id: quayside
name: Quayside Bench
edition: 2
date: 2026-11-01
invented: true
interpretations:
  unplugging: { reading: by-itself, reason: a plug is a thing of its own, by: M. R., on: 2026-10-20 }
  reheating: { reading: once-per-place, reason: heat is kept on, by: M. R., on: 2026-10-20 }
  rounding: { reading: rounded, reason: as the printed label has it, by: M. R., on: 2026-10-20 }
`,
);
const LINES =
  'Readings of the laboratory Quayside Bench (quayside, edition 2 of 2026-11-01): unplugging: by itself; reheating: once per place.\n' +
  'The record reads for itself where the laboratory has: rounding: rounded.\n';

test.each([['index'], ['explain'], ['duties'], ['rubric']])(
  'unfasten %s --laboratory counts as if the record had chosen so, and says whose readings hold',
  async (command) => {
    const own = await runInProcess([command, chosen]);
    const { code, out } = await runInProcess([command, plain, '--laboratory', file]);
    expect([code, out]).toEqual([0, expect.stringContaining(LINES)]);
    expect(out.replace(LINES, '')).toBe(own.out);
    // Legal duties hang on no reading of this file.
    if (command !== 'duties') expect((await runInProcess([command, plain])).out).not.toBe(own.out);
  },
);

test('unfasten index --json names the laboratory, its edition and what holds; a faulty file stops with its place', async () => {
  const { out } = await runInProcess(['index', plain, '--laboratory', file, '--json']);
  expect(JSON.parse(out).laboratory).toMatchObject({
    id: 'quayside',
    edition: 2,
    readings: { unplugging: { value: 'by-itself', holds: true }, rounding: { holds: false } },
  });
  const faulty = join(root, 'faulty.yaml');
  writeFileSync(faulty, readFileSync(file, 'utf8').replace('by-itself', 'by-itselves'));
  const { code, err } = await runInProcess(['index', plain, '--laboratory', faulty]);
  expect([code, err]).toEqual([
    1,
    expect.stringMatching(/faulty\.yaml:9:\d+ interpretations\/unplugging\/reading.*"by-itself"/s),
  ]);
});

test('unfasten report --laboratory prints every reading with whose it is, why, and its effect', async () => {
  const out = join(root, 'report');
  await runInProcess(['report', plain, '--laboratory', file, '--no-outlook', '--out', out]);
  const page = readFileSync(join(out, 'report.html'), 'utf8');
  const told = page.slice(page.indexOf('id="interpretations"')).split('</section>')[0];
  expect(told).toContain('those of the laboratory Quayside Bench hold (quayside, edition 2 of 2026-11-01).');
  expect(told).toContain('as the laboratory reads it (M. R., 2026-10-20): heat is kept on');
  expect(told).toMatch(
    /chosen here, where the laboratory reads &quot;rounded&quot; \(M\. R\., 2026-10-20: as the printed label has it\)/,
  );
  const verdict = JSON.parse(readFileSync(join(out, 'verdict.json'), 'utf8'));
  expect(verdict.readBy).toEqual({ id: 'quayside', name: 'Quayside Bench', edition: 2, date: '2026-11-01' });
});

test('unfasten rescore --laboratory never takes facts kept without it, nor the other way about', async () => {
  const run = async (folder: string, ...more: readonly string[]): Promise<Record<string, unknown>> => {
    const argv = ['rescore', join(root, 'archive'), '--out', join(root, folder), '--workers', '1', '--json', ...more];
    return JSON.parse((await runInProcess(argv)).out) as Record<string, unknown>;
  };
  const without = await run('kept');
  const under = await run('kept', '--laboratory', file);
  expect(under.readBy).toMatchObject({ id: 'quayside', edition: 2 });
  expect(under.items).not.toEqual(without.items);
  expect(under).toEqual(await run('fresh', '--laboratory', file));
  expect(await run('kept')).toEqual(without);
  expect(await run('fresh')).toEqual(without);
});
