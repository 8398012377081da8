import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { parse } from 'yaml';
import type { Assessment } from '#record/schema/assessment';
import { groundworkOf, indexBases, readingsOf } from '#verdict/index-bases';
import { smallRecord } from '../records/small-record.ts';

const tarn4 = parse(
  readFileSync(new URL('../../examples/tarn-4/assessment.yaml', import.meta.url), 'utf8'),
) as Assessment;

/** Tarn 4 with one damage named by the entry that lifted the back cover (m03). */
const damaged = (damage: object): Assessment => {
  const record = structuredClone(tarn4);
  const entry = record.sessions?.['measured-a']?.entries.m03;
  if (!entry) throw new Error('tarn-4 lifts its back cover at m03');
  entry.damage = ['crack'];
  return {
    ...record,
    damage: { crack: { what: 'back cover cracked', severity: 'function', ...damage } },
  } as Assessment;
};

const observedOf = (record: Assessment) =>
  indexBases(groundworkOf(record), readingsOf(record)).find(({ basis }) => basis === 'observed');

test('indexBases: an observed route ruled to damage the product leaves its parts not scorable, never 0', () => {
  const observed = observedOf(damaged({ ruling: 'route-damages-product' }));
  expect(observed?.figures.R).toBeNull();
  expect(observed?.figures.notScorable.map(({ what }) => what)).toContain('SDD/battery');
  expect(observed?.figures.parts.battery?.DD).toBeNull();
  const whys = observed?.figures.notScorable.map(({ why }) => why) ?? [];
  expect(whys.some((why) => why.endsWith('ruled to damage the product (back cover cracked)'))).toBe(true);
});

test('indexBases: while nobody has ruled on a damage the observed steps are open, not scorable included', () => {
  const observed = observedOf(damaged({}));
  expect(observed?.figures.parts.battery?.DD).toBeNull();
  expect(observed?.mayBeNotScorable).toBe(true);
  expect(observed?.missing.map(({ address }) => address)).toContain('damage/crack/ruling');
  expect(observed?.missing.map(({ what }) => what)).toContain(
    'whether the damage “back cover cracked” comes from the route or from a slip of the hand',
  );
});

test('indexBases: a slip of the hand changes nothing', () => {
  const whole = observedOf(tarn4)?.figures;
  expect(observedOf(damaged({ ruling: 'slip-of-hand' }))?.figures.parts).toEqual(whole?.parts);
});

/** A battery that is shown to come with two fasteners off, or, as sight may say, with a third alone, which was damaged. */
const eitherWay = (behind: readonly (readonly string[])[] | undefined): Assessment =>
  smallRecord({
    parts: {
      shelf: {},
      cell: {
        role: 'battery',
        remoteNotification: false,
        remoteAuthorisation: false,
        trials: { t: { off: ['x1', 'x2'], came: 'yes' } },
        ...(behind && { behind }),
      },
    },
    fasteners: Object.fromEntries(
      ['x1', 'x2', 'y'].map((id) => [id, { kind: 'other', between: ['shelf', 'chassis'], behind: [] }]),
    ),
    log: [
      ['unscrew', 'x1', ['driver']],
      ['pry', 'x2', ['pick']],
      ['pry', 'y', ['spudger']],
      ['lift', 'cell'],
    ],
    damage: {
      tear: { what: 'torn', severity: 'function', session: 'run', after: 'e2', before: 'e3', ruling: RULING },
    },
  });
const RULING = 'route-damages-product';

test('indexBases: damage on what may turn out to be the way to a part leaves it open, and not scorable when it does', () => {
  const settled = observedOf(eitherWay([['x1', 'x2'], ['y']]));
  expect(settled?.figures.notScorable.map(({ what }) => what)).toContain('SDD/battery');
  const open = observedOf(eitherWay(undefined))?.inputs;
  expect(open?.main.parts.battery.instances[0]?.steps).toMatchObject({ state: 'known', value: 2 });
  // Open without a worst end: not scorable is among what it may be.
  expect(open?.wide.parts.battery.instances[0]?.steps).toEqual({
    state: 'open',
    missing: [expect.objectContaining({ address: 'parts/cell/trials' })],
  });
});
