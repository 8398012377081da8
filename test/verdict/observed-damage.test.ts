import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { parse } from 'yaml';
import type { Assessment } from '#record/schema/assessment';
import { groundworkOf, indexBases, readingsOf } from '#verdict/index-bases';

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
});

test('indexBases: while nobody has ruled on a damage the observed steps are open, not scorable included', () => {
  const observed = observedOf(damaged({}));
  expect(observed?.figures.parts.battery?.DD).toBeNull();
  expect(observed?.mayBeNotScorable).toBe(true);
  expect(observed?.missing.map(({ address }) => address)).toContain('damage/crack/ruling');
});

test('indexBases: a slip of the hand changes nothing', () => {
  const whole = observedOf(tarn4)?.figures;
  expect(observedOf(damaged({ ruling: 'slip-of-hand' }))?.figures.parts).toEqual(whole?.parts);
});
