import { expect, test } from 'vitest';
import type { RouteAtom } from '#routes/problem/route-problem';
import { countSteps } from '#routes/steps/step-counter';
import { share } from '../../share.ts';
import { Draw } from './random.ts';
import { type SlowAtom, type SlowRules, slowCount } from './slow-count.ts';

const SWITCHES: readonly (keyof SlowRules)[] = [
  'fastenersAsParts',
  'unpluggingBySelf',
  'cleaningAfterRelease',
  'reheatingOncePerPlace',
  'holdingAidsAreTools',
  'firstPickUpIsChange',
  'bareHandsIsChange',
];
const ALL_RULES = Array.from(
  { length: 2 ** SWITCHES.length },
  (_, code) =>
    Object.fromEntries(SWITCHES.map((name, bit) => [name, ((code >> bit) & 1) === 1])) as unknown as SlowRules,
);
const AIDS: ReadonlySet<string> = new Set(['stand']);
const TOOLS = ['a', 'b', 'c', 'stand'];

const drawAtom = (draw: Draw): SlowAtom => {
  const act = draw.one(['unscrew', 'pry', 'unplug', 'pull', 'heat', 'clean', 'lift', 'turn-over', 'fold-aside']);
  const removes = act === 'lift' || act === 'fold-aside' || draw.chance(0.1);
  return {
    do: act,
    tools: draw
      .shuffled(TOOLS)
      .slice(0, draw.one([0, 0, 1, 1, 1, 2, 3]))
      .sort(),
    ...(act === 'heat' && draw.chance(0.8) ? { place: draw.one(['edge', 'core']) } : {}),
    ...(act === 'clean' && draw.chance(0.5) ? { afterRelease: true } : {}),
    ...(act === 'unscrew' ? { releases: { fastener: 'f', count: 1 + draw.below(3), asItems: draw.chance(0.7) } } : {}),
    ...(removes && act !== 'heat' && act !== 'clean' && act !== 'turn-over'
      ? { removes: { part: 'p', becomes: draw.one(['aside', 'free'] as const) } }
      : {}),
  };
};

const fastCount = (atoms: readonly SlowAtom[], rules: SlowRules): number =>
  countSteps(atoms as unknown as RouteAtom[], rules, AIDS).total;

test('the counter agrees with the definition on drawn sequences, under all 128 readings', () => {
  const sequences = share(60, 1500);
  for (let seed = 1; seed <= sequences; seed++) {
    const draw = new Draw(seed);
    const atoms = Array.from({ length: 1 + draw.below(14) }, () => drawAtom(draw));
    for (const rules of ALL_RULES) expect(fastCount(atoms, rules), `seed ${seed}`).toBe(slowCount(atoms, rules, AIDS));
  }
});

test('leaving out any atoms never raises the count, under all 128 readings', () => {
  const sequences = share(60, 1500);
  for (let seed = 1; seed <= sequences; seed++) {
    const draw = new Draw(seed + 100_000);
    const atoms = Array.from({ length: 2 + draw.below(12) }, () => drawAtom(draw));
    const fewer = draw.chance(0.5)
      ? atoms.filter((_, index) => index !== seed % atoms.length)
      : atoms.filter(() => draw.chance(0.7));
    for (const rules of ALL_RULES)
      expect(fastCount(fewer, rules), `seed ${seed}`).toBeLessThanOrEqual(fastCount(atoms, rules));
  }
});

test('the steps listed add up to the total and hold every counted atom once', () => {
  for (let seed = 1; seed <= share(100, 1500); seed++) {
    const draw = new Draw(seed + 200_000);
    const atoms = Array.from({ length: 1 + draw.below(14) }, () => drawAtom(draw)) as unknown as RouteAtom[];
    const rules = draw.one(ALL_RULES);
    const { total, steps } = countSteps(atoms, rules, AIDS);
    const held = steps.flatMap((step) => step.atoms);
    expect(steps.reduce((sum, step) => sum + step.count, 0)).toBe(total);
    expect(new Set(held).size).toBe(held.length);
    expect(held).toEqual([...held].sort((a, b) => a - b));
  }
});
