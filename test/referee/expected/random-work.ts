import type { Seeded } from './seeded.ts';
import type { TryOf, UncertainWork } from './uncertain-work.ts';

/** How large and how risky is generated work to be? */
export interface RandomWorkOptions {
  readonly random: Seeded;
  readonly tries: number;
  readonly hasDamage: boolean;
}

/**
 * What would a small device's work look like? Parts held by one to three fasteners with one to three ways each, reached
 * through earlier parts; sure and unsure ways, bare hands, one tool, two tools at once or in turn, alternatives of
 * sets, a second way to take a part, ways that never work, ways that nothing wants; losses from nothing to large.
 */
export const randomWork = (options: RandomWorkOptions): UncertainWork => {
  const { random, tries: count } = options;
  const tools = ['a', 'b', 'c'].slice(0, random.int(1, 3));
  const tries: TryOf[] = [];
  const parts: string[] = [];
  const add = (one: Pick<TryOf, 'needs' | 'anyOf' | 'gives'>, isUnsure: boolean): void => {
    if (tries.length < count)
      tries.push({
        id: `t${tries.length}`,
        ...one,
        atoms: randomAtoms(random, tools),
        ...chancesOf(options, isUnsure),
      });
  };
  while (tries.length < count) {
    const part = `off/p${parts.length}`;
    // A wide part is a board: several fasteners of one kind, all reached alike.
    const isWide = random.chance(0.3);
    const fasteners = isWide ? random.int(3, 5) : random.int(1, 3);
    const needs: string[] = [];
    const access = randomAccess(random, parts);
    for (let f = 0; f < fasteners && tries.length < count - 1; f++) {
      const fact = `released/f${parts.length}-${f}`;
      const ways = isWide ? 1 : random.pick([1, 1, 2, 3]);
      for (let w = 0; w < ways && tries.length < count - 1; w++)
        add(
          { ...(isWide || random.chance(0.7) ? access : randomAccess(random, parts)), gives: [fact] },
          random.chance(0.6),
        );
      needs.push(fact);
    }
    add(
      { needs: [...needs, ...(random.chance(0.3) ? access.needs : [])], anyOf: [], gives: [part] },
      random.chance(0.1),
    );
    if (random.chance(0.25)) add({ needs: needs.slice(1), anyOf: [], gives: [part] }, random.chance(0.7));
    parts.push(part);
  }
  const target = parts.at(-1) ?? '';
  return {
    pickups: Object.fromEntries(tools.map((tool) => [tool, 1000 * random.int(1, 15)])),
    tries,
    target,
    ...losses(random),
  };
};

const losses = (random: Seeded): Pick<UncertainWork, 'damageLoss' | 'strandedLoss'> => ({
  damageLoss: random.pick([0, 50_000, 500_000, 3_600_000]),
  strandedLoss: random.pick([0, 100_000, 600_000, 3_600_000]),
});

const randomAccess = (random: Seeded, parts: readonly string[]): Pick<TryOf, 'needs' | 'anyOf'> => {
  const recent = parts.slice(-3);
  const needs = recent.filter(() => random.chance(0.5));
  if (recent.length < 2 || random.chance(0.75)) return { needs, anyOf: [] };
  return { needs: [], anyOf: [[[random.pick(recent)], recent.filter(() => random.chance(0.6))]] };
};

const randomAtoms = (random: Seeded, tools: readonly string[]): TryOf['atoms'] => {
  const time = (): number => 1000 * random.int(1, 60);
  if (random.chance(0.3)) return [{ tools: [], milliseconds: time() }];
  const tool = random.pick(tools);
  if (random.chance(0.75)) return [{ tools: [tool], milliseconds: time() }];
  const other = random.pick(tools);
  const both = [...new Set([tool, other])].sort();
  return random.chance(0.5)
    ? [{ tools: both, milliseconds: time() }]
    : [
        { tools: [tool], milliseconds: time() },
        { tools: [], milliseconds: time() },
        { tools: [other], milliseconds: time() },
      ];
};

const chancesOf = ({ random, hasDamage }: RandomWorkOptions, isUnsure: boolean): Pick<TryOf, 'success' | 'damage'> => {
  if (!isUnsure) return { success: 1, damage: 0 };
  if (random.chance(0.04)) return { success: 0, damage: hasDamage ? 0.1 : 0 };
  const damage = hasDamage && random.chance(0.6) ? random.int(1, 25) / 100 : 0;
  return { success: Math.min(1 - damage, random.int(20, 99) / 100), damage };
};
