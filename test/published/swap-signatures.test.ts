/**
 * Source: the signature matrix of the rival explanations of a part swap, worked out by hand for this project from the effects that the
 * laws on part pairing name, before the code was written (two units A and B with own parts a and b). It is derived; no law or
 * standard prints one. P passed, F failed or by degree, D by degree, * either. Columns: baseline A+a and B+b, refit control A+a and
 * B+b, A+b, B+a, back A+a and B+b; then what the last column says with its circumstance.
 */
import { expect, test } from 'vitest';
import { MATRIX_COLUMNS, signatureMatrix } from '#swaps/signature/signature-matrix';

const LETTERS: Readonly<Record<string, string>> = {
  passed: 'P',
  reduced: 'D',
  'reduced,failed': 'F',
  'passed,reduced,failed': '*',
};

type PublishedRow = readonly [row: string, eight: string, last: readonly [column: string, letter: string][]];

const PUBLISHED: readonly PublishedRow[] = [
  ['accepted', 'PP PP PP PP', []],
  ['bad donor: b', 'P* PP FP PF', [['A+b authorised', 'F']]],
  ['handling damage: A, at its refit control', 'PP FP FP FP', [['A+b authorised', 'F']]],
  ['handling damage: A, at the cross', 'PP PP FP FP', [['A+b authorised', 'F']]],
  ['missing calibration', 'PP PP DD PP', [['A+b calibrated', 'P']]],
  ['bug up to v1', 'PP ** FF **', [['A+b on v2', 'P']]],
  ['pairing, reversible', 'PP PP FF PP', [['A+b authorised', 'P']]],
  ['pairing, latching', 'PP PP FF FF', [['A+b authorised', 'P']]],
];

/**
 * Where the rules allow more than the matrix, and why: a piece that may fail in its home at the baseline may fail there at the refit
 * control too, since nothing but a handling lies between.
 */
const WIDER: Readonly<Record<string, readonly string[]>> = { 'bad donor: b': ['B+b refit control'] };

test.each(PUBLISHED)('%s has the signature of the matrix', (name, eight, last) => {
  const row = signatureMatrix().find(({ label }) => label === name);
  const cellOf = (column: string): string => {
    const place = MATRIX_COLUMNS.findIndex(({ label }) => label === column);
    return LETTERS[row?.allowed[place]?.join() ?? ''] ?? '?';
  };
  const columns = MATRIX_COLUMNS.slice(0, 8).map(({ label }) => label);
  for (const [place, letter] of [...eight.replaceAll(' ', '')].entries()) {
    const column = columns[place] ?? '';
    const isWider = WIDER[name]?.includes(column) ?? false;
    expect([column, cellOf(column)]).toEqual([column, isWider ? '*' : letter]);
  }
  for (const [column, letter] of last) expect([column, cellOf(column)]).toEqual([column, letter]);
});

test('latching pairing looks like two hosts damaged at the cross until something is authorised', () => {
  const eightOf = (name: string): string | undefined =>
    signatureMatrix()
      .find(({ label }) => label === name)
      ?.allowed.slice(0, 8)
      .map((cell) => LETTERS[cell.join()])
      .join('');
  expect(eightOf('handling damage: A and B, at the cross')).toBe(eightOf('pairing, latching'));
});
