import { createHash } from 'node:crypto';
import { expect, test } from 'vitest';
import { fixtureVerdict } from '../../../test/fixtures/verdict.ts';
import { renderReport } from '../render-report.ts';
import { factsByScore } from './score-facts.ts';

const sha256Base64 = (text: string) => createHash('sha256').update(text, 'utf8').digest('base64');
const plain = renderReport(fixtureVerdict, { sha256Base64 }).replace(/<[^>]+>/g, '');

test('letterReasons gives the sum of a known R, its distance, and what an open score is worth in R', () => {
  expect(plain).toContain('= 0.25 × 2.60 + 0.15 × (3.50 + 3.40 + 3.00 + 5.00 + 3.00) = 3.3350.');
  expect(plain).toContain('To the threshold 3.35 it is -0.0150; beyond lies class B.');
  expect(plain).toContain('Disassembly depth: SDD 2.00 to 2.60, 0.1500 of R.');
});

test('factsByScore sets a fact that no explanation names by its place in the record', () => {
  const fact = (address: string) => ({ address, what: `what of ${address}`, remedy: 'look' });
  const addresses = ['supply/software/security/years', 'tools/cup/onSale', 'fasteners/tape/ways', 'product/foldable'];
  const tree = { ...(fixtureVerdict.bases[0]?.tree ?? expect.fail('a basis')), children: [] };
  const { groups, elsewhere } = factsByScore({ tree, missing: addresses.map(fact) });
  const found = (['SSU', 'ST', 'SF'] as const).map((score) => groups.get(score)?.map(({ address }) => address));
  expect(found).toEqual([[addresses[0]], [addresses[1]], [addresses[2]]]);
  expect(elsewhere.map(({ address }) => address)).toEqual(['product/foldable']);
});
