import { appendFileSync, cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { run } from '#cli/run';
import { plus, rational } from '#quantity/rational';
import { canonicalJson } from '#report/export/canonical-json';
import { exactValue } from '#verdict/rubric/exact-text';
import { collectingStreams } from '../collecting-streams.ts';
import { runInProcess } from './run-in-process.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));
const shipped = join(root, 'rubrics/quayside-general.yaml');
const folder = mkdtempSync(join(tmpdir(), 'unfasten-rescore-'));
const [archive, later] = [join(folder, 'archive'), join(folder, 'later')];
const [newer, out] = [join(folder, 'newer.yaml'), join(folder, 'kept')];

beforeAll(() => {
  mkdirSync(join(archive, 'phones'), { recursive: true });
  mkdirSync(join(archive, 'vacuums', 'gust'), { recursive: true });
  cpSync(join(root, 'examples/tarn-4/assessment.yaml'), join(archive, 'phones', 'tarn-4.yaml'));
  cpSync(join(root, 'examples/beck-11/assessment.yaml'), join(archive, 'phones', 'beck-11.yaml'));
  cpSync(join(root, 'examples/gust-2/assessment.yaml'), join(archive, 'vacuums', 'gust', 'assessment.yaml'));
  cpSync(archive, later, { recursive: true });
  const phone = join(later, 'phones', 'tarn-4.yaml');
  const text = readFileSync(phone, 'utf8');
  const changed = text.replace(/price: [\d.]+ EUR/, 'price: 1 EUR');
  expect(changed).not.toBe(text);
  writeFileSync(phone, changed);
  writeFileSync(join(archive, 'phones', 'bad.yaml'), 'format: unfasten/assessment\nversion: 1\nparts: 7\n');
  writeFileSync(join(later, 'phones', 'new.yaml'), text);
  const edited = readFileSync(shipped, 'utf8')
    .replace('edition: 1', 'edition: 2')
    .replace('weight: 10', 'weight: 20')
    .replace('{ upTo: 2, points: 100 }', '{ upTo: 2, points: 90 }');
  writeFileSync(newer, edited);
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

interface Split {
  readonly change: string;
  readonly weights: string;
  readonly scales: string;
  readonly metrics: string;
  readonly facts: string;
}

const rescored = async (...more: readonly string[]) => {
  const { code, out: text, err } = await runInProcess(['rescore', archive, '--json', '--workers', '1', ...more]);
  return { code, text, err, rescoring: JSON.parse(text) };
};

const sums = ({ weights, scales, metrics, facts }: Split) =>
  [weights, scales, metrics, facts].map(exactValue).reduce(plus, rational(0n));

test('rescore gives both scores, places and an exact split for each record, and names the bad file alone', async () => {
  const { code, text, rescoring } = await rescored('--rubric', newer, '--against', shipped, '--out', out);
  expect(code).toBe(1);
  expect(text).toBe(canonicalJson(rescoring));
  expect(rescoring.items.map(({ item }: { item: string }) => item)).toEqual([
    'phones/beck-11.yaml',
    'phones/tarn-4.yaml',
    'vacuums/gust',
  ]);
  expect([rescoring.before.edition, rescoring.after.edition]).toEqual([1, 2]);
  let moved = 0;
  for (const { low, high } of rescoring.items as readonly { low: Split; high: Split }[])
    for (const split of [low, high]) {
      expect([split.metrics, split.facts]).toEqual(['0', '0']);
      expect(sums(split)).toEqual(exactValue(split.change));
      moved += split.weights === '0' ? 0 : 1;
    }
  expect(moved).toBeGreaterThan(2);
  expect(rescoring.failed).toEqual([
    expect.objectContaining({ item: 'phones/bad.yaml', where: expect.stringMatching(/bad\.yaml:\d+:\d+ /) }),
  ]);
  const { out: single } = await runInProcess(['rubric', join(archive, 'vacuums/gust'), '--rubric', newer, '--json']);
  const { low, high } = JSON.parse(single);
  expect(rescoring.items[2].after).toMatchObject({ low, high });
});

test('rescore of a folder without any assessment says so, and ends as a wrong call', async () => {
  const empty = join(folder, 'empty');
  mkdirSync(empty);
  const { code, err } = await runInProcess(['rescore', empty, '--rubric', shipped, '--out', join(folder, 'none')]);
  expect([code, err]).toEqual([2, expect.stringContaining('There is no assessment in this folder')]);
});

test('rescore goes on where a killed run stopped, and comes to the same bytes', async () => {
  const first = await rescored('--rubric', newer, '--against', shipped, '--out', out);
  expect(first.err).toContain('3 results were there');
  const results = join(out, 'results.jsonl');
  const lines = readFileSync(results, 'utf8').trimEnd().split('\n');
  writeFileSync(results, `${lines[0]}\n${lines[1]?.slice(0, 40)}`);
  const again = await rescored('--rubric', newer, '--against', shipped, '--out', out);
  expect(again.err).toContain('1 results were there');
  expect(again.text).toBe(first.text);
  expect(
    readFileSync(results, 'utf8')
      .trimEnd()
      .split('\n')
      .map((line) => JSON.parse(line).key)
      .sort(),
  ).toEqual(lines.map((line) => JSON.parse(line).key).sort());
  appendFileSync(results, 'no JSON at all\n');
  expect((await rescored('--rubric', newer, '--against', shipped, '--out', out)).text).toBe(first.text);
});

test('rescore by another rubric takes the facts kept; without any kept it comes to the same bytes', async () => {
  const warm = await rescored('--rubric', shipped, '--against', newer, '--out', out);
  const cold = await rescored('--rubric', shipped, '--against', newer, '--out', join(folder, 'cold'));
  expect(warm.text).toBe(cold.text);
  const back = JSON.parse((await rescored('--rubric', newer, '--against', shipped, '--out', out)).text);
  const flip = (split: Split) => exactValue(split.change).numerator;
  expect(warm.rescoring.items.map(({ low }: { low: Split }) => flip(low))).toEqual(
    back.items.map(({ low }: { low: Split }) => -flip(low)),
  );
});

test('rescore --then takes the facts after the change from a second archive', async () => {
  const { rescoring } = await rescored('--rubric', shipped, '--then', later, '--out', out);
  expect([rescoring.onlyBefore, rescoring.onlyAfter]).toEqual([['phones/bad.yaml'], ['phones/new.yaml']]);
  const changes = rescoring.items.map(({ low, high }: { low: Split; high: Split }) => [
    low.weights,
    low.facts !== '0' || high.facts !== '0',
  ]);
  expect(changes).toEqual([
    ['0', false],
    ['0', true],
    ['0', false],
  ]);
});

test('rescore --criteria splits what each criterion adds, and its parts make up those of the whole', async () => {
  const { rescoring } = await rescored('--rubric', newer, '--against', shipped, '--out', out, '--criteria');
  for (const { low } of rescoring.items as readonly { low: Split & { by: Record<string, Record<string, string>> } }[])
    for (const factor of ['weights', 'scales'] as const) {
      const parts = Object.values(low.by).map((parts) => exactValue(parts[factor] ?? '0'));
      expect(parts.reduce(plus, rational(0n))).toEqual(exactValue(low[factor]));
    }
  const argv = ['rescore', archive, '--rubric', newer, '--against', shipped, '--out', out, '--criteria'];
  expect((await runInProcess(argv)).out).toMatch(/\n {4}lowest end, criteria\/battery-depth: weights [+−]/);
});

test('rescore says on a terminal how far it is, how fast, and how long it will take', async () => {
  const { streams, err } = collectingStreams({ isTTY: true });
  let milliseconds = 0;
  const now = () => {
    milliseconds += 700;
    return milliseconds;
  };
  const argv = ['rescore', archive, '--rubric', newer, '--against', newer, '--out', out, '--workers', '1'];
  await run({ argv, version: '0', streams, now });
  expect(err()).toMatch(/rescore: \d of 4, [\d.]+ a second, about \d s left.*1 with problems/);
});

test('rescore with two workers writes the same bytes as with one: JSON, CSV and page', async () => {
  const files = async (workers: string) => {
    const [json, csv, page] = ['json', 'csv', 'html'].map((end) => join(folder, `w${workers}.${end}`));
    const argv = ['rescore', archive, '--rubric', newer, '--against', shipped, '--workers', workers];
    const named = ['--json', json, '--csv', csv, '--report', page, '--out', join(folder, `workers-${workers}`)];
    await runInProcess([...argv, ...named].map(String));
    return [json, csv, page].map((file) => readFileSync(String(file), 'utf8'));
  };
  // More than one batch, so that there is something to share out.
  for (let copy = 0; copy < 20; copy += 1)
    cpSync(join(archive, 'phones/beck-11.yaml'), join(archive, `copy-${String(copy).padStart(2, '0')}.yaml`));
  const [one, two] = [await files('1'), await files('2')];
  expect(two).toEqual(one);
  const [json = '', csv = '', page = ''] = one;
  expect(JSON.parse(json).items).toHaveLength(23);
  expect(csv.split('\r\n')).toHaveLength(26);
  expect(page).toContain('Invented rubric');
  expect(page.match(/<th scope="row">/g)).toHaveLength(24);
});

test('rescore reads a copy of a record with what lies beside it, whatever an earlier one was found to be', async () => {
  const copies = join(folder, 'copies');
  const place = (name: string): string => join(copies, name);
  for (const name of ['a', 'evidence-changed', 'two'])
    cpSync(join(root, 'examples/gust-2'), place(name), { recursive: true });
  const scored = async (): Promise<readonly string[]> => {
    const kept = join(folder, 'copies-kept');
    const { out: text } = await runInProcess(['rescore', copies, '--json', '--workers', '1', '--out', kept]);
    return JSON.parse(text).items.map(({ item }: { item: string }) => item);
  };
  expect(await scored()).toEqual(['a', 'evidence-changed', 'two']);
  appendFileSync(join(place('evidence-changed'), 'evidence', 'function-list.txt'), 'more\n');
  for (const name of ['b', 'changed-too'])
    cpSync(place(name === 'b' ? 'a' : 'evidence-changed'), place(name), { recursive: true });
  cpSync(join(root, 'examples/tarn-4/assessment.yaml'), join(place('two'), 'assessment.yml'));
  // Evidence of a record where it lay is not read again; that of a copy is.
  expect(await scored()).toEqual(['a', 'b', 'evidence-changed']);
});
