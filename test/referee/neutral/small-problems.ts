import { seededNumbers } from '#quantity/seeded-numbers';
import type { RefereeAction, RefereeProblem } from './neutral-referee.ts';

/** What is special about a small problem? Recorded so that a test can show that each kind was met. */
export interface SmallProblem {
  readonly problem: RefereeProblem;
  readonly cyclic: boolean;
  readonly fused: boolean;
  readonly nonMetric: boolean;
}

/**
 * A seeded problem of at most 16 actions: every kind of feature appears in some of them. Odd seeds have pairs that open
 * each other from either side; fused actions (with an `endTool`) only where asked for.
 */
export const smallProblem = (seed: number, fusedActions = false): SmallProblem => {
  const random = seededNumbers(seed * 2654435761);
  const int = (low: number, high: number): number => low + Math.floor(random() * (high - low + 1));
  const pick = <T>(list: readonly T[]): T => list[Math.floor(random() * list.length)] as T;
  const cyclic = seed % 2 === 1;
  const fractional = random() < 0.4;
  const seconds = (low: number, high: number): number =>
    fractional ? int(low * 1000, high * 1000) / 1000 : int(low, high);
  const tools = Array.from({ length: int(1, 4) }, (_, index) => ({ id: `t${index}`, pickupSeconds: seconds(0, 12) }));
  const facts = Array.from({ length: int(4, 9) }, (_, index) => `f${index}`);
  const actions: RefereeAction[] = [];
  const count = int(7, 16);
  const add = (needs: readonly string[], gives: readonly string[]): void => {
    const tool = random() < 0.2 ? null : pick(tools).id;
    const fused = fusedActions && tool !== null && random() < 0.35;
    const end = fused ? { endTool: pick(tools).id } : {};
    const cost = random() < 0.1 ? 0 : seconds(1, 30);
    actions.push({ id: `a${actions.length}`, tool, ...end, seconds: cost, needs, gives });
  };
  facts.forEach((fact, index) => {
    const earlier = facts.slice(Math.max(0, index - 4), index);
    const needs = [...new Set([...earlier].filter(() => random() < 0.45))];
    if (random() < 0.97) add(needs, random() < 0.2 ? [fact, pick(facts)] : [fact]);
  });
  while (actions.length < count) {
    const index = int(0, facts.length - 1);
    const needs = facts.slice(0, index).filter(() => random() < 0.25);
    if (cyclic && index > 0 && random() < 0.6 && actions.length + 2 <= count) {
      const [one, other] = [facts[index] as string, facts[index - 1] as string];
      add([one], [other]);
      add([other], [one]);
    } else add(needs, [facts[index] as string]);
  }
  const target = [...new Set(Array.from({ length: random() < 0.3 ? int(2, 3) : 1 }, () => pick(facts.slice(-3))))];
  const table = changeoverTable(
    tools.map(({ id }) => id),
    random,
    seconds,
  );
  const free = random() < 0.25 ? { firstPickupFree: true } : {};
  const problem = {
    tools,
    actions: actions.slice(0, 16),
    target,
    ...free,
    ...(table.length > 0 ? { changeover: table } : {}),
  };
  return { problem, cyclic, fused: actions.some((a) => a.endTool !== undefined), nonMetric: table.length > 0 };
};

const changeoverTable = (
  tools: readonly string[],
  random: () => number,
  seconds: (low: number, high: number) => number,
): [string, string, number][] => {
  const table: [string, string, number][] = [];
  const share = random();
  if (share < 0.5) return table;
  for (const from of tools)
    for (const to of tools)
      if (from !== to && random() < share) table.push([from, to, seconds(0, random() < 0.3 ? 60 : 12)]);
  return table;
};
