import { expect, test } from 'vitest';
import { SeededRandom } from '../../test/faults/seeded-random.ts';
import { drawRecord } from '../../test/verdict/drawn-record.ts';
import { groundworkOf, indexBases, readingsOf } from './index-bases.ts';
import { lettersOf } from './letters.ts';
import { interpretationVerdicts, otherReadings } from './reading-effects.ts';

const drawn = (seed: number) => {
  const stream = new SeededRandom(seed);
  return drawRecord(() => stream.below(2 ** 20) / 2 ** 20).open;
};

test('every change of an end or a letter is that of the bases worked out under the other reading', () => {
  let [moved, halves] = [0, 0];
  for (const seed of [11, 12, 13]) {
    const record = drawn(seed);
    const [groundwork, readings] = [groundworkOf(record), readingsOf(record)];
    const bases = indexBases(groundwork, readings);
    const others = [...otherReadings(groundwork, readings)];
    const rows = interpretationVerdicts({ readings, bases, reasons: {}, laboratory: new Map() }, others);
    for (const other of others) {
      const row = rows.find(({ id }) => id === other.id)?.others.find(({ value }) => value === other.value);
      for (const [index, basis] of bases.entries()) {
        const then = other.bases[index];
        if (!then) continue;
        const change = row?.changes.find((candidate) => candidate.basis === basis.basis);
        for (const end of ['low', 'high'] as const) {
          const [from, to] = [(basis[end] ?? basis.figures).R, (then[end] ?? then.figures).R];
          expect(change?.[end], `${seed} ${other.id} ${other.value} ${basis.basis}`).toEqual(
            from === to ? undefined : { from, to },
          );
        }
        const letters = { from: lettersOf(basis, readings), to: lettersOf(then, other.readings) };
        expect(change?.letters).toEqual(letters.from.join() === letters.to.join() ? undefined : letters);
        moved += change?.low || change?.high ? 1 : 0;
        halves += Boolean(change?.low) === Boolean(change?.high) ? 0 : 1;
      }
    }
  }
  expect([moved > 0, halves > 0]).toEqual([true, true]);
});
