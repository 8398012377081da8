import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import type { Assessment } from '#record/schema/assessment';
import { DEFAULT_INTERPRETATIONS } from '#schemes/eu-2023-1669/interpretations';
import { scoreSheetX } from '../../../test/records/score-sheet-x.ts';
import { computeVerdict } from '../compute-verdict.ts';
import { readingsOf } from '../index-bases.ts';
import { laboratoryJsonSchema } from './laboratory-json-schema.ts';
import type { Laboratory } from './laboratory-schema.ts';
import { readLaboratory } from './read-laboratory.ts';
import { laboratoryReadings, withLaboratory } from './with-laboratory.ts';

const TEXT = `format: unfasten/laboratory
version: 1
id: quayside
name: Quayside Bench
edition: 2
date: 2026-11-01
invented: true
interpretations:
  rounding: { reading: rounded, reason: as the printed label has it, by: M. R., on: 2026-10-20 }
  bare-hands: { reading: change, reason: hands are a tool to us, by: M. R., on: 2026-10-20 }
`;

const read = (text: string) => readLaboratory({ fileName: 'laboratory.yaml', bytes: new TextEncoder().encode(text) });
const quayside = read(TEXT).laboratory as Laboratory;
const record = scoreSheetX({});
const choosing = (interpretations: NonNullable<Assessment['interpretations']>): Assessment => ({
  ...record,
  interpretations,
});

test('withLaboratory: the own choice before the laboratory, the laboratory before the default', () => {
  const [first = ''] = Object.keys(quayside.interpretations);
  expect(readingsOf(withLaboratory(record, quayside))).toEqual({
    ...DEFAULT_INTERPRETATIONS,
    rounding: 'rounded',
    'bare-hands': 'change',
  });
  const own = choosing({ [first]: { value: DEFAULT_INTERPRETATIONS.rounding } });
  expect(readingsOf(withLaboratory(own, quayside))).toEqual({ ...DEFAULT_INTERPRETATIONS, 'bare-hands': 'change' });
  expect(withLaboratory(record, undefined)).toBe(record);
  expect(record.interpretations).toBe(undefined);
  expect([...laboratoryReadings(own, quayside)].map(([id, { holds }]) => [id, holds])).toEqual([
    ['rounding', false],
    ['bare-hands', true],
  ]);
});

test('computeVerdict says of every reading whose it is, and counts by it', () => {
  const own = choosing({ 'bare-hands': { value: 'no-change', reason: 'asked so by the client' } });
  const { readBy, interpretations, laboratory } = computeVerdict(own, { recordDigest: '', laboratory: quayside });
  expect([readBy, laboratory]).toEqual([
    { id: 'quayside', name: 'Quayside Bench', edition: 2, date: '2026-11-01' },
    own.laboratory,
  ]);
  const of = (wanted: string) => interpretations.find(({ id }) => id === wanted);
  expect(of('rounding')).toMatchObject({
    value: 'rounded',
    isDefault: false,
    reason: 'as the printed label has it',
    laboratory: { value: 'rounded', by: 'M. R.', on: '2026-10-20', holds: true },
  });
  expect(of('bare-hands')).toMatchObject({ reason: 'asked so by the client', laboratory: { holds: false } });
  expect(of('bare-hands')?.value).toBe('no-change');
  const others = interpretations.filter(({ id }) => !['rounding', 'bare-hands'].includes(id));
  expect(others.filter((row) => row.laboratory !== undefined)).toEqual([]);
  expect(computeVerdict(own, { recordDigest: '' })).not.toHaveProperty('readBy');
});

test.each([
  [
    'rounding: { reading: rounded',
    'rounding: { reading: round',
    /^9:\d+ interpretations\/rounding\/reading .*"rounded"/,
  ],
  ['  bare-hands:', '  bare-handed:', /^10:\d+ interpretations\/bare-handed .*"bare-hands"/],
  [', by: M. R., on: 2026-10-20 }\n  bare', ', on: 2026-10-20 }\n  bare', /^9:\d+ interpretations\/rounding/],
  ['edition: 2', 'edition: 0', /^5:\d+ edition/],
])('readLaboratory refuses %s made %s, where it stands', (right, wrong, told) => {
  const { laboratory, problems } = read(TEXT.replace(right, wrong));
  expect(laboratory).toBe(undefined);
  const [only] = problems;
  expect(`${only?.line}:${only?.column} ${only?.path} ${only?.message}. ${only?.remedy}`).toMatch(told);
});

test('the kept schema is that of the code', () => {
  const kept = readFileSync(new URL('../../../schema/laboratory.schema.json', import.meta.url), 'utf8');
  expect(JSON.parse(kept)).toEqual(laboratoryJsonSchema());
});
