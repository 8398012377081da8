import type { Draw } from './random.ts';
import type { SlowAction, SlowProblem } from './slow-best.ts';
import type { SlowAtom, SlowRules } from './slow-count.ts';

/** Small devices for trying everything: parts behind fasteners behind parts, with every trait that steps or points look at. */

const TOOLS = ['driver', 'spudger', 'heater', 'cup', 'stand'];
const SWITCHES: readonly (keyof SlowRules)[] = [
  'fastenersAsParts',
  'unpluggingBySelf',
  'cleaningAfterRelease',
  'reheatingOncePerPlace',
  'holdingAidsAreTools',
  'firstPickUpIsChange',
  'bareHandsIsChange',
];

/** Rules with each switch on by the given chance. */
export const drawRules = (draw: Draw, chance: number): SlowRules =>
  Object.fromEntries(SWITCHES.map((name) => [name, draw.chance(chance)])) as unknown as SlowRules;

const drawTools = (draw: Draw): string[] => {
  const count = draw.one([0, 1, 1, 1, 1, 2]);
  return [...new Set(draw.shuffled(TOOLS).slice(0, count))].sort();
};

const drawDuration = (draw: Draw): { milliseconds?: number } =>
  draw.chance(0.1) ? {} : { milliseconds: 500 * (1 + draw.below(6)) };

const heating = (draw: Draw): SlowAtom => ({
  do: 'heat',
  tools: draw.chance(0.8) ? ['heater'] : drawTools(draw),
  ...(draw.chance(0.8) ? { place: draw.one(['edge', 'core']) } : {}),
  ...drawDuration(draw),
});

const releaseAtoms = (draw: Draw, fastener: string): SlowAtom[] => {
  const atoms: SlowAtom[] = [];
  if (draw.chance(0.25)) atoms.push(heating(draw));
  if (draw.chance(0.1)) atoms.push({ do: 'turn-over', tools: [], ...drawDuration(draw) });
  const act = draw.one(['unscrew', 'pry', 'unplug', 'pull', 'unscrew']);
  atoms.push({
    do: act,
    tools: drawTools(draw),
    ...drawDuration(draw),
    releases: { fastener, count: 1 + draw.below(3), asItems: act === 'unscrew' || act === 'pull' },
  });
  if (draw.chance(0.15)) atoms.push({ do: 'clean', tools: drawTools(draw), afterRelease: true, ...drawDuration(draw) });
  if (draw.chance(0.1)) atoms.push({ do: 'clean', tools: drawTools(draw), ...drawDuration(draw) });
  return atoms;
};

const behind = (draw: Draw, facts: readonly string[]): Pick<SlowAction, 'needs' | 'anyOf'> => {
  if (facts.length === 0) return { needs: [], anyOf: [] };
  const some = (most: number): string[] => draw.shuffled(facts).slice(0, 1 + draw.below(most));
  const latest = draw.chance(0.6) ? facts.slice(-1) : [];
  const needs = [...new Set([...(draw.chance(0.5) ? some(2) : []), ...latest])];
  const anyOf = draw.chance(0.45) ? [[some(2), some(2)]] : [];
  return { needs, anyOf };
};

const release = (draw: Draw, fastener: string, facts: readonly string[]): SlowAction[] => {
  const ways = draw.chance(0.35) ? 2 : 1;
  const shared = behind(draw, facts);
  return Array.from({ length: ways }, (_, way) => ({
    id: `release/${fastener}/w${way}`,
    kind: 'release',
    subject: fastener,
    way: `w${way}`,
    atoms: releaseAtoms(draw, fastener),
    ...(draw.chance(0.8) ? shared : behind(draw, facts)),
    gives: [`released/${fastener}`],
    leaves: draw.one(['reusable', 'reusable', 'resupplied', 'removable', draw.chance(0.15) ? 'destroyed' : 'reusable']),
    ...(draw.chance(0.98) ? { shown: 'bench' } : {}),
  }));
};

interface Growing {
  readonly actions: SlowAction[];
  readonly facts: string[];
}

const addPart = (draw: Draw, { actions, facts }: Growing, part: string): void => {
  const held: string[] = [];
  for (let at = draw.one([0, 1, 1, 2]); at > 0; at--) {
    const fastener = `f${actions.length}`;
    actions.push(...release(draw, fastener, facts));
    held.push(`released/${fastener}`);
  }
  const inside = draw.chance(0.2) ? [draw.one(['p1', 'p2', 'p3', 'p4', 'p5'])] : [];
  const lift = (kind: 'lift' | 'fold', becomes: 'free' | 'aside', tools: string[]): SlowAction => ({
    id: `${kind}/${part}`,
    ...{ kind, subject: part },
    atoms: [{ do: kind === 'lift' ? 'lift' : 'fold-aside', tools, removes: { part, becomes }, ...drawDuration(draw) }],
    ...(held.length > 0
      ? { needs: held, anyOf: draw.chance(0.15) ? behind(draw, facts).anyOf : [] }
      : behind(draw, facts)),
    gives: [
      ...(becomes === 'free' ? [`off/${part}`, `free/${part}`] : [`off/${part}`]),
      ...inside.filter((other) => other !== part).map((other) => `off/${other}`),
    ],
    shown: 'bench',
  });
  if (draw.chance(0.2)) actions.push(lift('fold', 'aside', []));
  actions.push(lift('lift', 'free', draw.chance(0.7) ? [] : drawTools(draw)));
  facts.push(...held, `off/${part}`);
};

/** A device of at most `most` actions, with its last part as the usual target. */
export const drawProblem = (draw: Draw, most: number): { problem: SlowProblem; targets: string[] } => {
  const growing: Growing = { actions: [], facts: [] };
  const parts: string[] = [];
  while (growing.actions.length < most - 3 && parts.length < 6) {
    const part = `p${parts.length}`;
    addPart(draw, growing, part);
    parts.push(part);
  }
  const last = parts[parts.length - 1] ?? 'p0';
  const end = draw.one([`free/${last}`, `off/${last}`]);
  const others = draw.shuffled(growing.facts).slice(0, draw.one([0, 0, 0, 1, 2]));
  const targets = [end, ...others];
  const problem = {
    reach: 'pessimistic',
    tools: TOOLS.map((id) => ({ id, pickupMilliseconds: 250 * draw.below(12), holdingAid: id === 'stand' })),
    actions: growing.actions,
    priorityParts: parts.filter(() => draw.chance(0.6)),
    unreachable: {},
  };
  return { problem, targets: [...new Set(targets)] };
};
