import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, expect, test } from 'vitest';
import { runInProcess } from './run-in-process.ts';

const gust = fileURLToPath(new URL('../../examples/gust-2', import.meta.url));
const shipped = fileURLToPath(new URL('../../rubrics/quayside-general.yaml', import.meta.url));
const folder = mkdtempSync(join(tmpdir(), 'unfasten-rubric-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const house = (edit: (text: string) => string): string => {
  const path = join(folder, 'house.yaml');
  writeFileSync(path, edit(readFileSync(shipped, 'utf8')));
  return path;
};

test('unfasten rubric prints the score with its width, a line a criterion, caps and what is missing', async () => {
  const { code, out, err } = await runInProcess(['rubric', gust]);
  expect([code, err]).toEqual([0, '']);
  expect(out).toMatch(/^House rubric Quayside general, edition 1 of 2026-11-25, by Quayside Bench \(invented\)\.\n/);
  expect(out).toMatch(/\nScore \d\d\.\d to \d\d\.\d of 100, open\. Assessor's determination\.\n/);
  expect(out).toMatch(/\n29\.6 +6 +2\.\d\d +Price of the battery.*: 69\/229 \(≈ 0\.301\) of the product price\n/);
  expect(out).toContain('  Remote actions for a new battery (battery-pairing)');
  expect(out).toContain('  at most 20: The battery only by destroying what holds it: does not hold (1 step)');
  expect(out).toMatch(/\n {2}whether end users can get the motor as a spare part; order it/);
});

test('unfasten rubric --json prints the whole score, the same with the rubric named', async () => {
  const { out } = await runInProcess(['rubric', gust, '--json']);
  const score = JSON.parse(out);
  expect(Object.keys(score)).toEqual(
    expect.arrayContaining(['rubric', 'state', 'low', 'high', 'shown', 'criteria', 'caps', 'missing', 'tree']),
  );
  expect((await runInProcess(['rubric', gust, '--json', '--rubric', shipped])).out).toBe(out);
});

test('unfasten rubric by another rubric weighs as that says, and its cap holds', async () => {
  const edit = (text: string): string => text.replace('is: [none] }', 'above: 0 }');
  const { out } = await runInProcess(['rubric', gust, '--rubric', house(edit), '--json']);
  const { low, high, state, caps } = JSON.parse(out);
  expect([low, high, state, caps[0].holds]).toEqual(['20', '20', 'settled', 'yes']);
});

test('unfasten rubric says all that is wrong with a rubric, and ends with code 1; a missing file with 2', async () => {
  const faulty = house((text) => text.replace('weight: 10', 'weight: -10').replace('edition: 1', 'edition: one'));
  const { code, out } = await runInProcess(['rubric', gust, '--rubric', faulty]);
  expect(code).toBe(1);
  expect(out).toMatch(/house\.yaml:\d+:\d+ edition: error: a number is expected here/);
  expect(out).toMatch(/house\.yaml:\d+:\d+ criteria\/battery-depth\/weight: error: a weight is above 0/);
  const asJson = await runInProcess(['rubric', gust, '--rubric', faulty, '--json']);
  expect(JSON.parse(asJson.out).counts).toEqual({ errors: 2, warnings: 0 });
  expect((await runInProcess(['rubric', gust, '--rubric', join(folder, 'nowhere.yaml')])).code).toBe(2);
});
