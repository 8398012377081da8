import { expect, test } from 'vitest';
import { swapRecord } from '../../../test/fixtures/verdict-swaps.ts';
import { diagnosedSwaps } from './diagnosed-swaps.ts';

const record = swapRecord({
  w1: { specimen: 'a', part: 'camera', fitted: 'own', run: 1, effect: 'E0' },
  w2: { specimen: 'a', part: 'buzzer', fitted: 'own', run: 2, effect: 'E0' },
});
const { camera = {}, buzzer = {} } = record.parts ?? {};

test('diagnosedSwaps keeps what it found by the swaps, and gives the parts in the order of the record asked about', () => {
  const first = diagnosedSwaps({ ...record, parts: { camera, buzzer } });
  const turned = diagnosedSwaps({ ...record, parts: { buzzer, camera } });
  expect([[...first.runs.keys()], [...turned.runs.keys()]]).toEqual([
    ['camera', 'buzzer'],
    ['buzzer', 'camera'],
  ]);
  expect(diagnosedSwaps({ ...record, parts: { buzzer, camera }, title: 'another' })).toBe(turned);
});
