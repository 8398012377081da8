import { describe, expect, it } from 'vitest';
import type { Assessment, Entry } from '#record/schema/assessment';
import { assessment as schema } from '#record/schema/assessment';
import type { IndexBasis } from '#verdict/index-bases';
import { SeededRandom } from '../faults/seeded-random.ts';
import { basesOf } from '../records/small-record.ts';
import { share } from '../share.ts';
import { drawRecord } from './drawn-record.ts';
import { escaped } from './escaped.ts';

/** Drawn records for each reading. */
const CASES = share(25, 800);
const READINGS = [
  { 'failed-attempts': 'counted' },
  { 'failed-attempts': 'counted', 'bare-hands': 'change' },
  { 'failed-attempts': 'counted', 'previous-priority-part': 'common-order' },
  { 'failed-attempts': 'counted', 'duplicated-part': 'lowest-instance' },
] as const;

/** Failed attempts by the place in the log that they precede. */
type Attempts = ReadonlyMap<number, readonly Entry[]>;

/** Attempts on things not off yet, at any moment before they come off, with any tool, that show nothing of access. */
const drawAttempts = (record: Assessment, random: () => number): Attempts => {
  const log = Object.values(record.sessions?.run?.entries ?? {});
  const attempts = new Map<number, Entry[]>();
  for (const [index, entry] of log.entries())
    while (random() < 0.45) {
      const before = Math.floor(random() * (index + 1));
      const tool = ['driver', 'pick', 'spudger', 'mat', 'cloth'][Math.floor(random() * 5)] as string;
      const isMove = entry.do === 'lift';
      const failed: Entry = {
        at: 0,
        took: 10,
        do: isMove ? 'lift' : random() < 0.5 ? 'pry' : (entry.do as Exclude<Entry['do'], undefined>),
        ...(entry.target === undefined ? {} : { target: entry.target }),
        tools: random() < 0.2 ? [] : [tool],
        outcome: 'failed',
        because: 'slipped',
      };
      attempts.set(before, [...(attempts.get(before) ?? []), failed]);
    }
  return attempts;
};

/** The record with these attempts in its log, an entry each ten seconds. */
const withAttempts = (record: Assessment, attempts: Attempts): Assessment => {
  const { run, ...others } = record.sessions ?? {};
  const log = Object.values(run?.entries ?? {}).flatMap((entry, index) => [...(attempts.get(index) ?? []), entry]);
  const entries = Object.fromEntries(log.map((entry, index) => [`e${index + 1}`, { ...entry, at: 10 * (index + 1) }]));
  return schema.parse({ ...record, sessions: { ...others, run: { ...run, entries } } });
};

describe('the width of the observed basis', () => {
  it.each(READINGS)(
    `holds every answer where failed attempts count, over ${CASES} drawn records, under %j`,
    (readings) => {
      let [widened, lengthened] = [0, 0];
      for (let seed = 1; seed <= CASES; seed++) {
        const stream = new SeededRandom(500_000 + 10_000 * READINGS.indexOf(readings) + seed);
        const random = (): number => stream.below(2 ** 20) / 2 ** 20;
        const drawn = drawRecord(random);
        const attempts = drawAttempts(drawn.complete, random);
        const open = observedOf(withAttempts(drawn.open, attempts), readings);
        const complete = observedOf(withAttempts(drawn.complete, attempts), readings);
        expect(complete.low, `seed ${seed}: a complete record has no width`).toBeUndefined();
        expect(escaped(open, complete), `seed ${seed}`).toEqual([]);
        if (open.low) widened++;
        if (stepsIn(complete) > stepsIn(observedOf(drawn.complete, readings))) lengthened++;
      }
      expect(widened).toBeGreaterThan(CASES / 2);
      expect(lengthened).toBeGreaterThan(CASES / 2);
    },
  );
});

const observedOf = (record: Assessment, readings: Readonly<Record<string, string>>): IndexBasis => {
  const found = basesOf(record, readings).find(({ basis }) => basis === 'observed');
  if (!found) throw new RangeError('the record shows no part coming off');
  return found;
};

const stepsIn = ({ figures }: IndexBasis): number =>
  Object.values(figures.parts).reduce((sum, part) => sum + (part?.steps ?? 0), 0);
