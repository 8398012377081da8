import fc from 'fast-check';
import { expect, test } from 'vitest';
import { share } from '../../../test/share.ts';
import { type Barrier, blockingOf } from './blocking.ts';

const names = ['a', 'b', 'c', 'd', 'e', 'f'];
const barriers = names.map(
  (name): Barrier => ({ fact: `released/${name}`, why: 'not-shown', reason: 'never shown to work', ways: [] }),
);
const some = fc.uniqueArray(fc.constantFrom(...barriers), { minLength: 1 });

/** Every subset, the least first. */
const subsets = [...Array(2 ** barriers.length).keys()]
  .map((mask) => barriers.filter((_, at) => (mask >> at) % 2 === 1))
  .sort((a, b) => a.length - b.length);

test('what blocks every way is in all that open one, and with what is named besides it is a smallest that does', () => {
  fc.assert(
    fc.property(fc.array(some, { minLength: 1, maxLength: 5 }), (ways) => {
      const opens = (lifted: readonly Barrier[]) => ways.some((way) => way.every((one) => lifted.includes(one)));
      const opening = subsets.filter(opens);
      const { every, besides } = blockingOf(barriers, opens);
      expect(every).toEqual(barriers.filter((one) => opening.every((set) => set.includes(one))));
      expect(opens([...every, ...besides])).toBe(true);
      expect(every.length + besides.length).toBe(opening[0]?.length);
    }),
    { numRuns: share(200, 5_000) },
  );
});

test('past its number of sets it names one from which none can be left out', () => {
  const many = [...Array(40).keys()].map((at): Barrier => ({ ...(barriers[0] as Barrier), fact: `off/${at}` }));
  const opens = (lifted: readonly Barrier[]) =>
    [0, 1].some((rest) => many.every((one, at) => at % 2 !== rest || lifted.includes(one)));
  const { every, besides } = blockingOf(many, opens);
  expect([every, besides.length]).toEqual([[], 20]);
  for (const one of besides) expect(opens(besides.filter((other) => other !== one))).toBe(false);
});
