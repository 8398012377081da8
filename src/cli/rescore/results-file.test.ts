import { appendFileSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, test } from 'vitest';
import { RESCORING_METHOD, type RescoredItem } from '#verdict/rescore/rescoring';
import { appendAnswers, readEarlier } from './results-file.ts';
import { packedResult, RunResults } from './run-results.ts';

const folder = mkdtempSync(join(tmpdir(), 'unfasten-results-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const [ours, theirs] = ['a'.repeat(64), 'b'.repeat(64)];
const keyOf = (number: number): string => String(number).padStart(64, '0');
const result = (item: string, low: string, high = low): RescoredItem => {
  const ends = { low, high, shown: { low, high }, mayBeNone: false };
  return { item, product: `"${item}" ü\n`.repeat(9000), before: ends, after: ends };
};
const keep = (rules: string, number: number, item: string): void =>
  appendAnswers(folder, rules, [
    { kind: 'scored', key: keyOf(number), structures: [], packed: packedResult(result(item, '1/3')) },
  ]);

test('readEarlier finds the results of its own rules, reads them back whole, and passes over all else', () => {
  keep(theirs, 1, 'x');
  keep(ours, 2, 'y');
  const unsaid = { key: keyOf(3), method: RESCORING_METHOD, result: result('z', '2') };
  const old = { ...unsaid, key: keyOf(4), method: 'earlier' };
  appendFileSync(
    join(folder, 'results.jsonl'),
    `${JSON.stringify(unsaid)}\nno JSON\n${JSON.stringify(old)}\n{"key":"cut`,
  );
  keep(ours, 5, 'cut away');
  const earlier = readEarlier(folder, ours);
  // The line that was broken off took the next one with it, as no JSON: that one is made again.
  expect([[...earlier.places.keys()], earlier.otherMethod]).toEqual([[keyOf(2), keyOf(3)], 1]);
  expect([earlier.read(keyOf(2)), earlier.read(keyOf(3))]).toEqual([result('y', '1/3'), unsaid.result]);
  earlier.close();
  expect([...readEarlier(folder, theirs).places.keys()]).toEqual([keyOf(1), keyOf(3)]);
});

test('RunResults gives every result back with its places, in the order of paths, as often as asked', () => {
  const results = new RunResults(folder);
  results.add([packedResult(result('b', '50', '60')), packedResult(result('c', '55'))]);
  results.add([packedResult(result('a', '70'))]);
  const placed = results.placed();
  expect([results.count, placed.length]).toEqual([3, 3]);
  for (let walk = 0; walk < 2; walk += 1)
    expect([...placed]).toEqual([
      { ...result('a', '70'), placeBefore: { best: 1, worst: 1 }, placeAfter: { best: 1, worst: 1 } },
      { ...result('b', '50', '60'), placeBefore: { best: 2, worst: 3 }, placeAfter: { best: 2, worst: 3 } },
      { ...result('c', '55'), placeBefore: { best: 2, worst: 3 }, placeAfter: { best: 2, worst: 3 } },
    ]);
  results.close();
});
