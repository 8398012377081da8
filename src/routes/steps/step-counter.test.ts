import { expect, test } from 'vitest';
import type { RouteAtom } from '../problem/route-problem.ts';
import { type CountingRules, DEFAULT_COUNTING } from './counting-rules.ts';
import { countSteps } from './step-counter.ts';

const NO_AIDS: ReadonlySet<string> = new Set();

const act = (does: RouteAtom['do'], tools: string[] = [], more: Partial<RouteAtom> = {}): RouteAtom => ({
  do: does,
  tools,
  ...more,
});
const off = (part: string, tools: string[] = []): RouteAtom =>
  act('lift', tools, { removes: { part, becomes: 'free' } });
const screws = (count: number, tools: string[] = ['driver']): RouteAtom =>
  act('unscrew', tools, { releases: { fastener: 'screws', count, asItems: true } });

const count = (atoms: RouteAtom[], on: Partial<CountingRules> = {}, aids = NO_AIDS): number =>
  countSteps(atoms, { ...DEFAULT_COUNTING, ...on }, aids).total;

/** The battery route of device X, row by row as printed in the reference's section 4. */
const batteryOfDeviceX: RouteAtom[] = [
  act('pull', ['eject-pin'], { removes: { part: 'sim-tray', becomes: 'free' } }),
  act('heat', ['heat-source'], { place: 'rear-edge' }),
  act('pry', ['cup', 'pick'], { removes: { part: 'back-cover', becomes: 'free' } }),
  screws(2, ['cross-driver']),
  off('bracket'),
  act('unplug', ['spudger']),
  act('fold-aside', ['spudger'], { removes: { part: 'battery-flex', becomes: 'aside' } }),
  act('pull', ['tweezers'], { releases: { fastener: 'strip', count: 1, asItems: true } }),
  off('battery'),
];

test('device X reaches the battery in 7 steps where the strip is a fastener', () => {
  expect(count(batteryOfDeviceX)).toBe(7);
});

test('device X reaches the battery in 8 steps where the strip, and nothing else that comes away, is a part', () => {
  const stripIsPart = batteryOfDeviceX.map((atom) =>
    atom.releases?.fastener === 'strip' ? { ...atom, removes: { part: 'strip', becomes: 'free' as const } } : atom,
  );
  expect(count(stripIsPart)).toBe(8);
});

test('device X, fasteners as parts: two screws and the strip are removals of their own', () => {
  // tray, heat, cover (2), screw, screw, bracket, flex, strip, battery
  expect(count(batteryOfDeviceX, { fastenersAsParts: true })).toBe(10);
});

test('device X: the steps in order say why each ended', () => {
  const { steps } = countSteps(batteryOfDeviceX, DEFAULT_COUNTING, NO_AIDS);
  expect(steps.map((step) => [step.count, step.ended])).toEqual([
    [1, 'removal'],
    [1, 'heating'],
    [2, 'removal'],
    [1, 'removal'],
    [1, 'removal'],
    [1, 'removal'],
  ]);
});

test('like screws with one tool and the part they hold are one step', () => {
  expect(count([screws(2), screws(3), off('plate')])).toBe(1);
});

test('two tools at once are two steps; putting one down and going on with the other adds none', () => {
  expect(count([act('pry', ['cup', 'pick']), act('pry', ['pick']), off('cover')])).toBe(2);
});

test('a tool taken up again within a step after another counts again', () => {
  expect(count([act('pry', ['a']), act('pry', ['b']), act('pry', ['a']), off('cover')])).toBe(3);
});

test('bare hands before the first tool of a step are part of it', () => {
  expect(count([act('peel'), screws(1), off('plate')])).toBe(1);
  expect(countSteps([act('peel'), act('pry', ['a', 'b']), off('plate')], DEFAULT_COUNTING, NO_AIDS).steps).toHaveLength(
    1,
  );
});

test('turning over, cooling and tests do not count', () => {
  expect(count([act('turn-over'), act('cool', ['fan']), act('test', ['meter'])])).toBe(0);
});

const flips: readonly { switch: keyof CountingRules; atoms: RouteAtom[]; off: number; on: number; aids?: string[] }[] =
  [
    { switch: 'fastenersAsParts', atoms: [screws(4), off('plate')], off: 1, on: 5 },
    { switch: 'unpluggingBySelf', atoms: [act('unplug', ['spudger']), off('flex', ['spudger'])], off: 1, on: 2 },
    {
      switch: 'cleaningAfterRelease',
      atoms: [off('lid'), act('clean', ['cloth'], { afterRelease: true })],
      off: 1,
      on: 2,
    },
    {
      switch: 'reheatingOncePerPlace',
      atoms: [act('heat', ['mat'], { place: 'edge' }), act('heat', ['mat'], { place: 'edge' }), off('lid')],
      off: 3,
      on: 2,
    },
    {
      switch: 'holdingAidsAreTools',
      atoms: [act('unscrew', ['driver', 'stand']), off('lid')],
      off: 1,
      on: 2,
      aids: ['stand'],
    },
    { switch: 'firstPickUpIsChange', atoms: [screws(1), off('plate')], off: 1, on: 2 },
    { switch: 'bareHandsIsChange', atoms: [screws(1), off('plate')], off: 1, on: 2 },
  ];

test.each(flips)('$switch flips the count of its fixture from $off to $on', (flip) => {
  const aids = new Set(flip.aids ?? []);
  expect(count(flip.atoms, {}, aids)).toBe(flip.off);
  expect(count(flip.atoms, { [flip.switch]: true }, aids)).toBe(flip.on);
});

test('every switch has a fixture', () => {
  expect(flips.map((flip) => flip.switch).sort()).toEqual(Object.keys(DEFAULT_COUNTING).sort());
});

test('where a place counts once, a second heating with a further tool counts that tool alone', () => {
  const heat = (...tools: string[]): RouteAtom => act('heat', tools, { place: 'edge' });
  const once = { reheatingOncePerPlace: true };
  expect(count([heat('mat'), heat('mat', 'gun')], once)).toBe(2);
  expect(count([heat('mat', 'gun')], once)).toBe(2);
  expect(count([heat(), heat('mat')], once)).toBe(1);
});

test('more tools than a count can tell apart are refused', () => {
  const many = Array.from({ length: 31 }, (_, index) => act('pry', [`tool-${index}`]));
  expect(() => count(many)).toThrow(RangeError);
});
