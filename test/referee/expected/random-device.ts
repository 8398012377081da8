import type { Seeded } from './seeded.ts';
import type { TryOf, UncertainWork } from './uncertain-work.ts';

/** How large is a generated device, and are only contested ways unsure or every way? */
export interface RandomDeviceOptions {
  readonly random: Seeded;
  readonly parts: number;
  /** Fasteners with two or three ways, spread over the device. */
  readonly contested: number;
  readonly unsure: 'contested' | 'all';
}

const PICKUPS = { driver: 4000, spudger: 3000, tweezers: 2500, iron: 9000, syringe: 6000, card: 3000 };

/**
 * What would a handset's work look like? A cover, then shields and boards in layers: each part is held by one to six
 * fasteners (screws of one driver, connectors, adhesive), reached once the parts over it are off, and lifted by hand.
 */
export const randomDevice = (options: RandomDeviceOptions): UncertainWork => {
  const { random, parts: count } = options;
  const tries: TryOf[] = [];
  let contested = options.contested;
  for (let part = 0; part < count; part++) {
    const above = part === 0 ? [] : layerAbove(random, part);
    const needs: string[] = [...above];
    const fasteners = random.int(1, part === 0 ? 2 : 5);
    for (let f = 0; f < fasteners; f++) {
      const fact = `released/f${part}-${f}`;
      const isContested = contested > 0 && random.chance((1.5 * options.contested) / (3 * count));
      if (isContested) contested--;
      tries.push(...waysOf(fact, above, { ...options, isContested }));
      needs.push(fact);
    }
    tries.push({
      id: `lift/p${part}`,
      needs,
      anyOf: [],
      gives: [`off/p${part}`],
      success: 1,
      damage: 0,
      atoms: [bare(random)],
    });
  }
  return { pickups: PICKUPS, tries, target: `off/p${count - 1}`, damageLoss: 3_600_000, strandedLoss: 7_200_000 };
};

const bare = (random: Seeded): TryOf['atoms'][number] => ({ tools: [], milliseconds: 1000 * random.int(2, 9) });

const layerAbove = (random: Seeded, part: number): readonly string[] => {
  const nearest = Math.max(0, part - 1 - random.int(0, 4));
  return random.chance(0.4) && nearest > 0
    ? [`off/p${nearest}`, `off/p${random.int(0, nearest - 1)}`]
    : [`off/p${nearest}`];
};

const waysOf = (
  fact: string,
  needs: readonly string[],
  { random, unsure, isContested }: RandomDeviceOptions & { readonly isContested: boolean },
): readonly TryOf[] => {
  const way = (name: string, atoms: TryOf['atoms'], chances: Pick<TryOf, 'success' | 'damage'>): TryOf => ({
    id: `${fact}/${name}`,
    needs,
    anyOf: [],
    gives: [fact],
    atoms,
    ...chances,
  });
  const seconds = (low: number, high: number): number => 1000 * random.int(low, high);
  const oneTool = (tool: string, low: number, high: number): TryOf['atoms'] => [
    { tools: [tool], milliseconds: seconds(low, high) },
  ];
  if (!isContested) {
    const tool = random.pick(['driver', 'driver', 'spudger', 'tweezers']);
    const chances =
      unsure === 'all' ? { success: 0.97 + random.int(0, 2) / 100, damage: 0.01 } : { success: 1, damage: 0 };
    return [way('usual', oneTool(tool, 4, 40), chances)];
  }
  const unsureOdds = (): Pick<TryOf, 'success' | 'damage'> => ({
    success: random.int(50, 90) / 100,
    damage: random.int(0, 8) / 100,
  });
  const heated = [{ tools: ['iron'], milliseconds: seconds(60, 180) }, ...oneTool('card', 30, 90)];
  const ways = [
    way('pull', oneTool('tweezers', 10, 40), unsureOdds()),
    way('dissolve', oneTool('syringe', 60, 240), unsureOdds()),
    way('heat', heated, unsureOdds()),
  ];
  return random.chance(0.6) ? ways.slice(0, 2) : ways;
};
