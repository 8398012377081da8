import fc from 'fast-check';
import { expect, test } from 'vitest';
import { rational } from '#quantity/rational';
import { type Ends, placesOf } from './places.ts';

const ends = fc
  .tuple(fc.integer({ min: 0, max: 4 }), fc.integer({ min: 0, max: 2 }), fc.boolean(), fc.boolean())
  .map(([low, width, mayBeNone, isThere]) => (isThere ? { low, high: low + width, mayBeNone } : undefined));

/** Every way the scores turn out, by definition; whole numbers are enough, since places only change where two meet. */
const worlds = (all: readonly ({ low: number; high: number; mayBeNone: boolean } | undefined)[]) =>
  all.reduce<readonly (readonly (number | undefined)[])[]>(
    (built, each) => {
      const scores = each ? Array.from({ length: each.high - each.low + 1 }, (_, step) => each.low + step) : [];
      return built.flatMap((head) =>
        [...scores, ...(!each || each.mayBeNone ? [undefined] : [])].map((score) => [...head, score]),
      );
    },
    [[]],
  );

test('placesOf: best and worst are those over every way the scores turn out', () => {
  fc.assert(
    fc.property(fc.array(ends, { minLength: 1, maxLength: 4 }), (all) => {
      const seen = all.map(() => new Set<number>());
      for (const world of worlds(all))
        for (const [index, score] of world.entries())
          if (score !== undefined)
            seen[index]?.add(1 + world.filter((other) => other !== undefined && other > score).length);
      const found = placesOf(
        all.map(
          (each): Ends =>
            each && { low: rational(BigInt(each.low)), high: rational(BigInt(each.high)), mayBeNone: each.mayBeNone },
        ),
      );
      expect(found).toEqual(
        seen.map((places) =>
          places.size === 0 ? undefined : { best: Math.min(...places), worst: Math.max(...places) },
        ),
      );
    }),
    { numRuns: 300, seed: 20_261_125 },
  );
});
