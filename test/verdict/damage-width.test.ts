import { describe, expect, it } from 'vitest';
import { type Assessment, assessment as schema } from '#record/schema/assessment';
import { SeededRandom } from '../faults/seeded-random.ts';
import { basesOf } from '../records/small-record.ts';
import { share } from '../share.ts';
import { drawRecord } from './drawn-record.ts';
import { escaped } from './escaped.ts';

const CASES = share(25, 1500);
const RULINGS = ['route-damages-product', 'slip-of-hand'] as const;

type Damage = NonNullable<Assessment['damage']>[string];

/** A damage in the one session that no entry names: between two looks, or only found. */
const drawDamage = (record: Assessment, random: () => number): Damage => {
  const entries = Object.keys(record.sessions?.run?.entries ?? {});
  const at = Math.floor(random() * entries.length);
  const before = entries[Math.min(entries.length - 1, at + (random() < 0.6 ? 0 : 1))] as string;
  return {
    what: 'crack',
    severity: random() < 0.5 ? 'function' : 'safety',
    session: 'run',
    specimen: 'a',
    ...(random() < 0.8 ? { before } : { found: before }),
    ...(at > 0 && random() < 0.9 ? { after: entries[at - 1] as string } : {}),
  };
};

const withDamage = (record: Assessment, damage: Damage): Assessment =>
  schema.parse({ ...record, damage: { crack: damage } });

describe('the width of the index', () => {
  it(`holds every ruling on a damage that no entry names, over ${CASES} drawn records`, () => {
    const met = { refused: 0, scored: 0, widened: 0 };
    for (let seed = 1; seed <= CASES; seed++) {
      const stream = new SeededRandom(700_000 + seed);
      const random = (): number => stream.below(2 ** 20) / 2 ** 20;
      const drawn = drawRecord(random);
      const damage = drawDamage(drawn.complete, random);
      const ruling = RULINGS[Math.floor(random() * 2)] ?? 'slip-of-hand';
      const isRuled = random() < 0.4;
      const open = basesOf(withDamage(drawn.open, isRuled ? { ...damage, ruling } : damage));
      for (const settled of basesOf(withDamage(drawn.complete, { ...damage, ruling }))) {
        const wide = open.find(({ basis }) => basis === settled.basis);
        if (!wide) throw new RangeError(`the open record has nothing for the basis ${settled.basis}`);
        if (wide.low) met.widened++;
        if (settled.figures.R !== null) met.scored++;
        else if (settled.basis === 'observed') met.refused++;
        // A way that was only ever done with damage is no shown way: the best-found figure is then open, not refused.
        if (settled.figures.R === null && settled.basis === 'best') continue;
        expect(escaped(wide, settled), `seed ${seed}, ${settled.basis}, ${ruling}`).toEqual([]);
      }
    }
    expect(met.refused).toBeGreaterThan(CASES / 10);
    expect(met.scored).toBeGreaterThan(CASES / 2);
    expect(met.widened).toBeGreaterThan(CASES / 2);
  });
});
