import { expect, test } from 'vitest';
import type { Assessment } from '#record/schema/assessment';
import { swapRecord } from '../../../test/fixtures/verdict-swaps.ts';
import { diagnosedSwaps } from './diagnosed-swaps.ts';
import { nextSwapOf, swapPlanOf } from './swap-plan-of.ts';

type Bench = NonNullable<Assessment['swapBench']>;

const many = <T>(count: number, item: (index: number) => T): readonly T[] =>
  Array.from({ length: count }, (_, i) => item(i));
const withBench = (bench: Partial<Bench>) =>
  swapRecord({}, { swapBench: { hosts: ['a', 'b'], parts: { camera: {} }, firmware: ['5.0.1'], ...bench } });

test.each<readonly [limit: string, bench: Partial<Bench>, said: string]>([
  ['planHosts', { hosts: [...many(13, (i) => `h${i}`)] }, 'swapBench/hosts'],
  ['planFirmware', { firmware: [...many(13, (i) => `6.${i}`)] }, 'swapBench/firmware'],
  [
    'planPieces',
    { donors: Object.fromEntries(many(25, (i) => [`d${i}`, { part: 'camera', kind: 'refurbished' as const }])) },
    'swapBench/donors, part camera',
  ],
])(
  'a bench above the limit %s is refused by its name, with the place, and nothing is planned',
  (limit, bench, where) => {
    const record = withBench(bench);
    for (const ask of [swapPlanOf, nextSwapOf])
      expect(() => ask(record)).toThrowError(
        expect.objectContaining({
          kind: 'record',
          message: expect.stringContaining(`limit ${limit}: `),
          details: expect.objectContaining({ where }),
        }),
      );
  },
);

test('more fits of one part than are diagnosed together are refused with their number', () => {
  const swaps = Object.fromEntries(
    many(501, (run) => [`w${run}`, { specimen: 'a', part: 'camera', fitted: 'own' as const, run }]),
  );
  expect(() => diagnosedSwaps(swapRecord(swaps))).toThrowError(
    expect.objectContaining({
      message: 'More fits of one part are on record than are diagnosed together (limit partFits: 500)',
      details: expect.objectContaining({ where: 'swaps, part camera', value: 501 }),
    }),
  );
});
