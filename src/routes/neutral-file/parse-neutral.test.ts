import fc from 'fast-check';
import { expect, test } from 'vitest';
import { share } from '../../../test/share.ts';
import { parseNeutral } from './parse-neutral.ts';

const sound = {
  format: 'unfasten/route-problem',
  version: 1,
  tools: [
    { id: 'driver', pickupSeconds: 3 },
    { id: 'spudger', pickupSeconds: 2.5 },
  ],
  actions: [
    { id: 'unscrew', tool: 'driver', seconds: 8, needs: [], gives: ['loose'] },
    { id: 'lift', tool: null, seconds: 1, needs: ['loose'], gives: ['off'] },
  ],
  target: ['off'],
};

function faultsOf(value: unknown): readonly string[] {
  const reading = parseNeutral(typeof value === 'string' ? value : JSON.stringify(value));
  return reading.problem === undefined ? reading.faults.map(({ where, what }) => `${where}: ${what}`) : [];
}

test('parseNeutral returns a sound file as it stands', () => {
  expect(parseNeutral(JSON.stringify(sound))).toEqual({ problem: sound });
  const full = { ...sound, firstPickupFree: true, changeover: [['driver', 'spudger', 0.5]] };
  expect(parseNeutral(JSON.stringify(full))).toEqual({ problem: full });
});

test('parseNeutral tells all faults at once, each with its id path', () => {
  const broken = {
    ...sound,
    version: 2,
    tools: [
      { id: 'driver', pickupSeconds: -1 },
      { id: 'driver', pickupSeconds: 1 },
    ],
    actions: [
      { id: 'a', tool: 'drivr', seconds: '8', needs: [''], gives: 'x' },
      { id: 'a', tool: null, seconds: 1, needs: [], gives: [] },
    ],
    target: undefined,
    changeovers: [],
  };
  expect(faultsOf(broken)).toEqual([
    'changeovers: This field is unknown',
    'version: The version is unknown',
    'tools[0].pickupSeconds: This is no duration',
    'tools[1].id: This stands here twice',
    'actions[0].tool: There is no such tool',
    'actions[0].seconds: This is no duration',
    'actions[0].needs[0]: This is no name',
    'actions[0].gives: This is no list',
    'actions[1].id: This stands here twice',
    'target: This is no list',
  ]);
});

test('parseNeutral suggests the name that was probably meant', () => {
  const reading = parseNeutral(JSON.stringify({ ...sound, firstPickUpFree: true }));
  expect(reading.problem === undefined ? reading.faults[0]?.remedy : '').toBe('Did you mean "firstPickupFree"?');
});

test('parseNeutral refuses a changeover to itself, given twice or with an unknown tool', () => {
  const changeover = [
    ['driver', 'driver', 1],
    ['driver', 'spudger', 1],
    ['driver', 'spudger', 2],
    ['driver', 'hook', 1],
  ];
  expect(faultsOf({ ...sound, changeover })).toEqual([
    'changeover[0]: This goes from a tool to itself',
    'changeover[3][1]: There is no such tool',
    'changeover[2]: This stands here twice',
  ]);
});

test('parseNeutral refuses sizes past a limit by its number', () => {
  const tools = Array.from({ length: 201 }, (_, index) => ({ id: `t${index}`, pickupSeconds: 1 }));
  expect(faultsOf({ ...sound, tools })[0]).toBe('tools: This list is longer than the limit of 200');
});

test('parseNeutral answers any text and any JSON with a problem or located faults, and never throws', () => {
  const junk = fc.oneof(fc.string(), fc.json(), fc.constant('['.repeat(200_000)), fc.constant(''));
  const check = fc.property(junk, (text) => {
    expect(faultsOf(text).length).toBeGreaterThan(0);
  });
  fc.assert(check, { numRuns: share(200, 20_000), seed: 20_261_125 });
});
