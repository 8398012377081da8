import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { readAssessment } from '#record/read/read-assessment';
import type { Assessment } from '#record/schema/assessment';
import { SeededRandom } from '../../test/faults/seeded-random.ts';
import { drawRecord } from '../../test/verdict/drawn-record.ts';
import { computeVerdict } from './compute-verdict.ts';
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
        const none = { from: basis.mayBeNotScorable, to: then.mayBeNotScorable };
        expect(change?.mayBeNotScorable).toEqual(none.from === none.to ? undefined : none);
        moved += change?.low || change?.high ? 1 : 0;
        halves += Boolean(change?.low) === Boolean(change?.high) ? 0 : 1;
      }
    }
  }
  expect([moved > 0, halves > 0]).toEqual([true, true]);
});

test('a reading that may leave no score says so, and the letter hangs on it', () => {
  const file = new URL('../../examples/tarn-4/assessment.yaml', import.meta.url);
  const record = readAssessment({ fileName: 'assessment.yaml', bytes: readFileSync(file) }).assessment as Assessment;
  const { interpretations } = computeVerdict(record, { recordDigest: '' });
  // Spare parts seen only in a list of what can be ordered are not shown to be had where delivery is asked.
  const delivered = interpretations.flatMap(({ others }) => others).find(({ value }) => value === 'delivered');
  expect(delivered?.effect).toBe(
    'observed: R 3.7925 → 3.3425 to 3.7925, letter B → B or C, may be not scorable; ' +
      'best: R 3.9525 → 3.5025 to 3.9525, may be not scorable',
  );
});
