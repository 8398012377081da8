import { describe, expect, it } from 'vitest';
import { sheetVerdict } from '#verdict/sheet-verdict';
import { basesOf, smallRecord } from '../records/small-record.ts';

const consequencesOf = (foldable: object | undefined): readonly string[] => {
  const record = smallRecord({ product: { foldable, publicSheet: { SDD: '4.45' } } });
  return sheetVerdict(record, basesOf(record))?.consequences ?? [];
};

describe('a public sheet of a product of which nobody knows whether it folds', () => {
  it('forces only what both columns of weights force', () => {
    const plain = consequencesOf({ foldingDisplay: false, hinge: false });
    const unknown = consequencesOf(undefined);
    expect(plain.length).toBeGreaterThan(0);
    expect(unknown).not.toEqual(plain);
    expect(unknown).not.toEqual(consequencesOf({ foldingDisplay: true, hinge: true }));
  });
});
