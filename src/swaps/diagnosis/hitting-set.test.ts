import fc from 'fast-check';
import { expect, test } from 'vitest';
import { smallestHittingSet } from './hitting-set.ts';

const sets = fc.array(fc.uniqueArray(fc.integer({ min: 0, max: 7 }), { minLength: 1, maxLength: 5 }), { maxLength: 8 });
const touches = (members: readonly number[], all: readonly (readonly number[])[]): boolean =>
  all.every((set) => set.some((member) => members.includes(member)));

/** All choices of the numbers 0 to 7, by size. */
const choices = Array.from({ length: 256 }, (_, bits) => [0, 1, 2, 3, 4, 5, 6, 7].filter((one) => (bits >> one) & 1));

test('it touches every set, no member can be left out, and none is smaller where three suffice', () => {
  fc.assert(
    fc.property(sets, (all) => {
      const found = smallestHittingSet(all) ?? [];
      const least = Math.min(...choices.filter((choice) => touches(choice, all)).map(({ length }) => length));
      expect(touches(found, all)).toBe(true);
      for (const member of found)
        expect(
          touches(
            found.filter((other) => other !== member),
            all,
          ),
        ).toBe(false);
      if (least <= 3) expect(found).toHaveLength(least);
    }),
    { seed: 7 },
  );
});

test('the order of the sets and of their members changes nothing', () => {
  fc.assert(
    fc.property(sets, (all) => {
      const turned = [...all].reverse().map((set) => [...set].reverse());
      expect(smallestHittingSet(turned)).toEqual(smallestHittingSet(all));
    }),
    { seed: 8 },
  );
});

test('four members are found where four are needed', () => {
  expect(smallestHittingSet([[0], [1], [2, 3], [4, 5], [2, 4]])).toEqual([0, 1, 2, 4]);
});

test('what the thinning of a larger answer leaves has no member too many', () => {
  const blocks = [1, 2, 3, 4].flatMap((one) => [
    [0, one],
    [one, one + 4],
  ]);
  expect(smallestHittingSet(blocks)).toEqual([1, 2, 3, 4]);
});

test('nothing touches an empty set, and no sets need nothing', () => {
  expect(smallestHittingSet([[1], []])).toBeUndefined();
  expect(smallestHittingSet([])).toEqual([]);
});
