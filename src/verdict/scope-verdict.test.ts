import { describe, expect, it } from 'vitest';
import { assessment as schema } from '#record/schema/assessment';
import { scopeVerdict } from './scope-verdict.ts';

const scopeOfProduct = (product: object, parts: object = {}) =>
  scopeVerdict(
    schema.parse({
      format: 'unfasten/assessment',
      version: 1,
      product: { name: 'Tarn 5', category: 'smartphone', rollableMainDisplay: false, highSecurity: false, ...product },
      parts,
    }),
  ).inScope;

describe('scopeVerdict', () => {
  it.each<[string, unknown]>([
    ['6.99 in', true],
    ['6.995 in', true],
    ['6.9999 in', true],
    ['7 in', 'open'],
    ['6.9 ± 0.05 in', true],
    ['6.9 ± 0.1 in', 'open'],
    ['6.9 to 7.1 in', 'open'],
    ['177.79 mm', true],
    ['177.8 mm', 'open'],
    ['17.7 cm', true],
    ['4 in', true],
    ['101.6 mm', true],
    ['101.59 mm', 'open'],
    ['4.05 ± 0.05 in', true],
    ['4.05 ± 0.06 in', 'open'],
  ])('judges a smartphone of %s exactly, at both ends', (diagonal, expected) => {
    expect(scopeOfProduct({ diagonal })).toBe(expected);
  });

  it.each<[string, object, object, unknown]>([
    ['nothing is said of folding', {}, {}, 'open'],
    ['it is said not to fold', { foldable: { foldingDisplay: false } }, {}, false],
    ['it is said to have no hinge', { foldable: { hinge: false } }, {}, false],
    [
      'it is said to fold, the other display out of range',
      { foldable: { foldingDisplay: true }, foldedDiagonal: '7.1 in' },
      {},
      false,
    ],
    [
      'it is said to fold, the other display in range',
      { foldable: { foldingDisplay: true }, foldedDiagonal: '6.2 in' },
      {},
      true,
    ],
    [
      'a hinge is among its parts, the other display in range',
      { foldedDiagonal: '6.2 in' },
      { h: { role: 'hinge' } },
      true,
    ],
    ['its hinge is known not to exist', { foldedDiagonal: '6.2 in' }, { h: { role: 'hinge', absent: true } }, 'open'],
  ])('of 7.8 in, where %s', (...[, product, parts, expected]) => {
    expect(scopeOfProduct({ diagonal: '7.8 in', ...product }, parts)).toBe(expected);
  });
});
