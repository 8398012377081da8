import { describe, expect, it } from 'vitest';
import { leastTime } from '#routes/least-time/least-time';
import { routeProblem } from '#routes/problem/from-record';
import type { Reach } from '#routes/problem/route-problem';
import { bestFound } from '#routes/search/best-found';
import { flatAtoms, type SequenceItem } from '#routes/sequence/bench-sequence';
import { observedSequence } from '#routes/sequence/observed';
import { DEFAULT_COUNTING } from '#routes/steps/counting-rules';
import { countSteps } from '#routes/steps/step-counter';
import { type TinyRecord, tinySource } from '../../fixtures/tiny-record.ts';
import { share } from '../../share.ts';
import { Draw } from '../steps/random.ts';
import { drawRecord, drawTrial, type RandomRecord, renamed } from './random-record.ts';
import { slowLeastTime } from './slow-least-time.ts';

const CASES = share(60, 1500);
const points = { fastener: () => 5, tool: () => 5 };
const count = (items: readonly SequenceItem[]): number =>
  countSteps(flatAtoms(items).atoms, DEFAULT_COUNTING, new Set()).total;

/** The fewest steps to each part as found, and what they are at least; both `Infinity` where it can't be reached. */
const endsTo = (record: TinyRecord, reach: Reach): readonly { readonly found: number; readonly least: number }[] => {
  const source = tinySource(record);
  const problem = routeProblem(source, reach);
  return [...source.device.parts.keys()].map((part) => {
    const route = bestFound(problem, `free/${part}`, { rules: DEFAULT_COUNTING, points });
    if (route.kind !== 'found') return { found: Number.POSITIVE_INFINITY, least: Number.POSITIVE_INFINITY };
    return { found: route.steps, least: route.bound };
  });
};

/** Fewest steps to each part where they were proved; a search that met its limit of time says nothing of names. */
const provedSteps = (record: TinyRecord, reach: Reach): readonly (number | undefined)[] =>
  endsTo(record, reach).map(({ found, least }) => (found === least ? found : undefined));

/** The record with one more trial somewhere. */
const withTrial = (record: RandomRecord, draw: Draw, came: 'yes' | 'no'): RandomRecord => {
  const changed = structuredClone(record);
  const things = { ...changed.parts, ...changed.fasteners };
  const subject = draw.one(Object.keys(things));
  const others = Object.keys(things).filter((id) => id !== subject);
  const item = things[subject];
  if (item) item.trials = { ...(item.trials as object), added: drawTrial(draw, others, came) };
  return changed;
};

const everyCase = (check: (record: RandomRecord, draw: Draw, seed: number) => void): void => {
  for (let seed = 1; seed <= CASES; seed++) {
    const draw = new Draw(seed * 7919);
    check(drawRecord(draw), draw, seed);
  }
};

describe(`on ${CASES} generated records`, () => {
  it('no part takes fewer steps by what is shown than by what is not excluded', () => {
    let [narrower, proved, all] = [0, 0, 0];
    everyCase((record, _, seed) => {
      const shown = endsTo(record, 'pessimistic');
      for (const [index, possible] of endsTo(record, 'optimistic').entries()) {
        const steps = shown[index]?.found ?? 0;
        expect(steps, `seed ${seed}`).toBeGreaterThanOrEqual(possible.least);
        if (steps > possible.found) narrower++;
        if (possible.found === possible.least) proved++;
        all++;
      }
    });
    expect(narrower).toBeGreaterThan(0);
    expect(proved).toBeGreaterThan(0.95 * all);
  });

  it('one more success never makes a shown route longer, one more failure never makes a possible one shorter', () => {
    let [shorter, longer] = [0, 0];
    everyCase((record, draw, seed) => {
      const shown = endsTo(record, 'pessimistic');
      for (const [index, { found, least }] of endsTo(withTrial(record, draw, 'yes'), 'pessimistic').entries()) {
        expect(least, `seed ${seed}`).toBeLessThanOrEqual(shown[index]?.found ?? 0);
        if (found < (shown[index]?.least ?? 0)) shorter++;
      }
      const possible = endsTo(record, 'optimistic');
      for (const [index, { found, least }] of endsTo(withTrial(record, draw, 'no'), 'optimistic').entries()) {
        expect(found, `seed ${seed}`).toBeGreaterThanOrEqual(possible[index]?.least ?? 0);
        if (least > (possible[index]?.found ?? 0)) longer++;
      }
    });
    expect([shorter > 0, longer > 0]).toEqual([true, true]);
  });

  it('nothing depends on names or on the order of maps', () => {
    everyCase((record, _, seed) => {
      const other = renamed(record, (id) => `z${[...id].reverse().join('')}`);
      for (const reach of ['pessimistic', 'optimistic'] as const) {
        const turned = provedSteps(other, reach).toReversed();
        for (const [index, steps] of provedSteps(record, reach).entries())
          if (steps !== undefined && turned[index] !== undefined) expect(turned[index], `seed ${seed}`).toBe(steps);
        expect(observedCounts(other, reach).toReversed(), `seed ${seed}`).toEqual(observedCounts(record, reach));
      }
    });
  });

  it('an observed sequence is as long pessimistically at least, and leaving any of its actions out never raises the count', () => {
    everyCase((record, _, seed) => {
      const shown = observedItems(record, 'pessimistic');
      const possible = observedItems(record, 'optimistic');
      for (const [index, items] of shown.entries()) {
        if (!items) continue;
        expect(count(items), `seed ${seed}`).toBeGreaterThanOrEqual(count(possible[index] ?? []));
        for (const item of items)
          expect(count(items.filter((other) => other !== item)), `seed ${seed}`).toBeLessThanOrEqual(count(items));
      }
    });
  });

  it('least time equals that of trying everything', () => {
    let found = 0;
    everyCase((record, _, seed) => {
      const source = tinySource(record);
      const problem = routeProblem(source, 'pessimistic');
      for (const part of source.device.parts.keys()) {
        const slow = slowLeastTime(problem, `free/${part}`);
        const fast = leastTime(problem, [`free/${part}`]);
        expect([fast.milliseconds, fast.proved], `seed ${seed} ${part}`).toEqual([slow, true]);
        if (slow !== undefined) found++;
      }
    });
    expect(found).toBeGreaterThan(CASES);
  });
});

const observedItems = (record: TinyRecord, reach: Reach): readonly (readonly SequenceItem[] | undefined)[] => {
  const source = tinySource(record);
  return [...source.device.parts.keys()].map(
    (part) => observedSequence(source, part, { reach, keepAll: false, fewest: count })?.items,
  );
};

const observedCounts = (record: TinyRecord, reach: Reach): readonly (number | undefined)[] =>
  observedItems(record, reach).map((items) => items && count(items));
