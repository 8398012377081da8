import { describe, expect, it } from 'vitest';
import type { Assessment } from '#record/schema/assessment';
import { PRIORITY_ROLES } from '#schemes/eu-2023-1669/input';
import type { IndexBasis } from '#verdict/index-bases';
import { SeededRandom } from '../faults/seeded-random.ts';
import { basesOf, basisOf, type LogLine, smallRecord } from '../records/small-record.ts';
import { share } from '../share.ts';
import { drawRecord } from './drawn-record.ts';
import { escaped } from './escaped.ts';

const CASES = share(60, 1000);

const drawnBy = (seed: number): (() => number) => {
  const stream = new SeededRandom(seed);
  return () => stream.below(2 ** 20) / 2 ** 20;
};

/** The record without what it says of some fasteners: only its log names them then, and nobody knows what they hold. */
const undescribed = (record: Assessment, random: () => number): Assessment => ({
  ...record,
  fasteners: Object.fromEntries(Object.entries(record.fasteners ?? {}).filter(() => random() < 0.6)),
});

describe('fasteners that only a log names', () => {
  it(`leave a width that holds every description of them, over ${CASES} drawn records`, () => {
    let changed = 0;
    for (let seed = 1; seed <= CASES; seed++) {
      const random = drawnBy(700_000 + seed);
      const { complete } = drawRecord(random);
      const settled = basesOf(complete);
      for (const basis of basesOf(undescribed(complete, random))) {
        const then = settled.find((candidate) => candidate.basis === basis.basis) as IndexBasis;
        expect(escaped(basis, then), `seed ${seed}, ${basis.basis}`).toEqual([]);
        if (basis.low) changed++;
      }
    }
    expect(changed).toBeGreaterThan(CASES / 2);
  });
});

const others = Object.fromEntries(
  PRIORITY_ROLES.filter((role) => role !== 'display').map((role) => [`no-${role}`, { role, absent: true }]),
);

/** A display that is seen to lie open, and whatever else is recorded. */
const withDisplay = (more: Record<string, unknown>, log: readonly LogLine[] = []): Assessment =>
  smallRecord({
    parts: {
      ...others,
      screen: { role: 'display', behind: [], remoteNotification: false, remoteAuthorisation: false, ...more },
    },
    ...(log.length > 0 ? { log } : {}),
  });

const LOG: readonly LogLine[] = [
  ['unscrew', 'bolts', ['driver']],
  ['pry', 'rim', ['mat']],
  ['lift', 'screen'],
];

describe('a part that is seen to lie open', () => {
  // Nobody looked in what class the log's ways leave the fasteners: on the best basis they may turn out to be no ways.
  it.each([
    ['best', null],
    ['observed', 2],
  ] as const)('may be held by what was released before it came, on the basis %s', (name, most) => {
    const { figures, low, high } = basisOf(withDisplay({}, LOG), name);
    expect(figures.parts.display?.steps).toBe(2);
    expect([low?.parts.display?.steps, high?.parts.display?.steps]).toEqual([most, 1]);
    expect([high?.parts.display?.F, high?.parts.display?.T]).toEqual([5, 5]);
    expect(Number(low?.parts.display?.T)).toBeLessThan(5);
  });

  it('is not held by what was undone for another goal, nor by what was still on when it came', () => {
    const before: LogLine = ['unscrew', 'bolts', ['driver'], { goal: ['no-speaker'] }];
    const lift: LogLine = ['lift', 'screen', [], { goal: ['screen'] }];
    const { figures } = basisOf(withDisplay({}, [before, lift, ['pry', 'rim', ['mat']]]), 'best');
    expect(figures.parts.display).toMatchObject({ steps: 1, F: 5, T: 5 });
  });

  it('is held by nobody knows what, where it never came and no fastener is recorded', () => {
    const { figures, high } = basisOf(withDisplay({}), 'best');
    expect(figures.parts.display).toMatchObject({ steps: null, F: null, T: null });
    expect(high?.parts.display).toMatchObject({ steps: 1, F: 5, T: 5 });
  });

  it('is held by nothing, where it came in a trial and no fastener is recorded', () => {
    const { figures } = basisOf(withDisplay({ trials: { t: { off: [], came: 'yes' } } }), 'best');
    expect(figures.parts.display).toMatchObject({ steps: 1, F: 5, T: 5 });
  });
});
