import { expect, test } from 'vitest';
import { EXPLANATIONS } from '../model/explanation.ts';
import { MATRIX_COLUMNS, signatureMatrix } from './signature-matrix.ts';

/** P passed, D by degree, F by degree or outright, d passed or by degree, * anything. */
const LETTERS: Readonly<Record<string, string>> = {
  passed: 'P',
  reduced: 'D',
  'reduced,failed': 'F',
  'passed,reduced': 'd',
  'passed,reduced,failed': '*',
};

/** Columns: A+a B+b base, A+a B+b control, A+b B+a, A+a B+b back, then A+b authorised, calibrated, identity moved, on v2, again. */
const EXPECTED: Readonly<Record<string, string>> = {
  accepted: 'PP PP PP PP PPPPP',
  'bad donor: b': 'P* P* FP PF FFFFF',
  'handling damage: A, at its refit control': 'PP FP FP FP FFFFF',
  'handling damage: A, at the cross': 'PP PP FP FP FFFFF',
  'handling damage: A and B, at the cross': 'PP PP FF FF FFFFF',
  'missing calibration': 'PP PP DD PP dPdDD',
  'revision mismatch, A and B of one revision': 'PP PP PP PP PPPPP',
  'revision mismatch, B of another revision': 'PP PP FF PP FFFFF',
  'bug up to v1': 'PP ** FF ** FFFPF',
  'bug of every version at hand': 'PP ** FF ** FFFFF',
  'gauge or cache, settled': 'PP PP PP PP PPPPP',
  'gauge or cache, not settled': '** ** FF ** FFFFF',
  'pairing, reversible': 'PP PP FF PP PFPFF',
  'pairing, latching': 'PP PP FF FF PFPFF',
  "donor's home unit locked: no unit is": 'PP PP PP PP PPPPP',
  "donor's home unit locked: B is": 'PP PP FP PP FFFFF',
  'host not ready: every host is': 'PP PP PP PP PPPPP',
  'host not ready: open, not grounded or nearly empty': '** ** ** ** *****',
  'test error at A+b': 'PP PP FP PP PPPPP',
};

test.each(signatureMatrix().map((row) => [row.label, row] as const))('%s has its signature', (label, row) => {
  const cells = row.allowed.map((allowed) => LETTERS[allowed.join()] ?? '?').join('');
  expect(cells).toBe(EXPECTED[label]?.replaceAll(' ', ''));
  expect(row.allowed).toHaveLength(MATRIX_COLUMNS.length);
});

test('every explanation has a row, and every row is expected', () => {
  const rows = signatureMatrix();
  expect(new Set(rows.map(({ suspicion }) => suspicion.explanation))).toEqual(new Set(EXPLANATIONS));
  expect(rows.map(({ label }) => label)).toEqual(Object.keys(EXPECTED));
});
