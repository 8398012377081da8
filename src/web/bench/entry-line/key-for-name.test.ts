import fc from 'fast-check';
import { expect, it } from 'vitest';
import { id as recordKey } from '#record/schema/basics';
import { keyForName } from './key-for-name.ts';

it('every name gives a key that the record takes', () => {
  const check = fc.property(fc.string({ unit: 'grapheme', maxLength: 100 }), fc.boolean(), (name, isTaken) => {
    expect(recordKey.safeParse(keyForName(name, () => isTaken)).success).toBe(true);
  });
  fc.assert(check, { numRuns: 1000, seed: 20_261_125 });
});

it('accents fall away, other scripts and reserved words are told apart by a checksum', () => {
  const free = () => false;
  expect(keyForName('Gehäuse Rückseite', free)).toBe('gehause-ruckseite');
  expect(keyForName('بطارية', free)).toMatch(/^thing-[0-9a-f]{8}$/);
  expect(keyForName('電池', free)).not.toBe(keyForName('画面', free));
  expect(keyForName('constructor', free)).toMatch(/^constructor-[0-9a-f]{8}$/);
  expect(keyForName('lid', (key) => key === 'lid')).toMatch(/^lid-[0-9a-f]{8}$/);
});
