import { expect, test } from 'vitest';
import { effectLines, hasEffect } from './reading-words.ts';

test('effectLines keeps R and letter on the line of a basis and the steps apart', () => {
  expect(effectLines('observed: battery 14 → 15 steps, R 2.5125 → 2.4875, letter C → D; best: R 3.1 → 3.0')).toEqual([
    { basis: 'observed', index: 'R 2.5125 → 2.4875, letter C → D', steps: ['battery 14 → 15 steps'] },
    { basis: 'best', index: 'R 3.1 → 3.0', steps: [] },
  ]);
  expect(effectLines('nothing here')).toEqual([{ basis: '', index: 'nothing here', steps: [] }]);
});

test('hasEffect is false only where every other reading changes nothing', () => {
  const reading = { row: '1', id: 'a', kind: 'switch', question: '', value: 'no', isDefault: true } as const;
  const other = { value: 'yes', effect: 'nothing here', changesLetter: false, changes: [] };
  expect(hasEffect({ ...reading, others: [other] })).toBe(false);
  expect(hasEffect({ ...reading, others: [other, { ...other, effect: 'best: R 3.1 → 3.0' }] })).toBe(true);
});
