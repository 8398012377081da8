import { expect, test } from 'vitest';
import type { Assessment } from '#record/schema/assessment';
import type { Verdict } from '#verdict/verdict';
import { partRows } from './part-rows.ts';
import { reviewSource } from './review-source.ts';
import { sidesOfParts } from './sides-of-parts.ts';

const source = reviewSource({
  format: 'unfasten/assessment',
  version: 1,
  product: { name: 'Tarn 5' },
  faces: { front: { name: 'Front' }, back: { name: 'Back' } },
  parts: {
    display: { face: 'front', behind: [] },
    cover: { face: 'back', behind: [] },
    battery: { face: 'front', behind: [['display'], ['cover']] },
  },
} as Assessment);
const verdict = {
  faces: [
    { id: 'front', name: 'Front' },
    { id: 'back', name: 'Back' },
  ],
  parts: [{ part: 'battery', name: 'Battery', blocking: ['cover'], after: 'cover', depth: { shown: 2, atLeast: 2 } }],
} as unknown as Verdict;

test('a part lies at the side its best route comes by, and the table says the other besides', () => {
  const sides = sidesOfParts(source, verdict);
  expect(sides.get('battery')).toEqual({ place: 'back', others: ['front'] });
  const rows = partRows(source, verdict, sides);
  expect(rows.map(({ part, face: side }) => [part, side])).toEqual([
    ['battery', 'Back, also Front'],
    ['display', 'Front'],
    ['cover', 'Back'],
  ]);
});
