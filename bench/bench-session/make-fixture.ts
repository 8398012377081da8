import type { Assessment, Entry } from '#record/schema/assessment';

const PARTS = 50;
const FASTENERS_OF_PART = 3;
const TRIES = 4;

/** A number from 0 to 1 after another, the same row for the same seed (linear congruence, Numerical Recipes' constants). */
const randomRow = (seed: number): (() => number) => {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return state / 2 ** 32;
  };
};

/**
 * Which record is a long day at the bench? 50 parts one behind another with 150 fasteners, and so many entries of one session:
 * each fastener is tried four times in vain and then comes, each part is lifted when its fasteners are off, until the number is
 * reached. The battery, the goal, is the last. The same bytes for the same seed.
 */
export const benchFixture = (seed: number, entryCount: number): Assessment => {
  const random = randomRow(seed);
  const parts: NonNullable<Assessment['parts']> = {};
  const fasteners: NonNullable<Assessment['fasteners']> = {};
  for (let part = 0; part < PARTS; part++) {
    const behind = part === 0 ? [] : [[`p${Math.floor(part * random())}`]];
    parts[`p${part}`] = { name: `part ${part}`, behind, ...(part === PARTS - 1 ? { role: 'battery' } : {}) };
    for (let one = 0; one < FASTENERS_OF_PART; one++) {
      const index = part * FASTENERS_OF_PART + one;
      fasteners[`f${index}`] = {
        name: `fastener ${index}`,
        kind: (['screw', 'connector', 'clip'] as const)[one] ?? 'screw',
        count: 1 + (index % 4),
        between: [`p${part}`, 'chassis'],
        behind: part === 0 ? [] : [[`p${Math.floor(part * 0.7)}`]],
      };
    }
  }
  const session = {
    kind: 'measured',
    specimen: 'a',
    start: '2026-03-02T09:00:00+01:00',
    startsAs: 'complete',
  } as const;
  return {
    format: 'unfasten/assessment',
    version: 1,
    product: { name: 'Tarn long' },
    specimens: { a: {} },
    parts,
    fasteners,
    sessions: { s: { ...session, entries: entriesOf(random, entryCount) } },
  };
};

const VERBS = ['unscrew', 'unplug', 'release-clips'] as const;

const entriesOf = (random: () => number, entryCount: number): Record<string, Entry> => {
  const acts: Omit<Entry, 'at'>[] = [];
  for (let part = 0; acts.length < entryCount; part = (part + 1) % PARTS) {
    for (const [one, verb] of VERBS.entries()) {
      const act = { do: verb, target: `f${part * FASTENERS_OF_PART + one}` };
      for (let attempt = 0; attempt < TRIES; attempt++) acts.push({ ...act, outcome: 'failed', because: 'slipped' });
      acts.push(act);
    }
    acts.push({ do: 'lift', target: `p${part}`, free: [`p${part}`] });
  }
  let at = 0;
  return Object.fromEntries(
    acts.slice(0, entryCount).map((act, index) => {
      at += 5 + Math.floor(random() * 30);
      return [
        `e${index}`,
        { at, tools: [], named: 'later', naming: 'by-hand', goal: `p${PARTS - 1}`, ...act } as Entry,
      ];
    }),
  );
};
