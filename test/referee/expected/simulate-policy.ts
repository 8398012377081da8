import type { Seeded } from './seeded.ts';
import { after, atStart, isStranded, possibleNow, type TryOf, timeOf, type UncertainWork } from './uncertain-work.ts';

/** A policy as a graph, in whatever shape a planner returns it. */
export interface PolicyGraph {
  readonly start: number | string;
  readonly nodes: readonly {
    readonly action: string;
    readonly onSuccess: number | string;
    readonly onFailure: number | string | undefined;
  }[];
}

/** What many simulated runs came to: mean time with losses [ms], its standard error, shares of the ends. */
export interface Simulated {
  readonly mean: number;
  readonly standardError: number;
  readonly damaged: number;
  readonly stranded: number;
}

/**
 * What does following a policy come to in practice? Each run draws its own luck, checks that every try the policy names can
 * be made at that point, works out times itself, and checks that the policy ends where the work does.
 */
export const simulatePolicy = (
  work: UncertainWork,
  policy: PolicyGraph,
  { runs, random }: { runs: number; random: Seeded },
): Simulated => {
  const count = { damaged: 0, stranded: 0 };
  let sum = 0;
  let squares = 0;
  for (let run = 0; run < runs; run++) {
    const { time, end } = oneRun(work, policy, random);
    if (end !== 'reached') count[end]++;
    sum += time;
    squares += time * time;
  }
  const mean = sum / runs;
  const variance = Math.max(0, squares / runs - mean * mean);
  return {
    mean,
    standardError: Math.sqrt(variance / runs),
    damaged: count.damaged / runs,
    stranded: count.stranded / runs,
  };
};

type End = 'reached' | 'damaged' | 'stranded';

const oneRun = (work: UncertainWork, policy: PolicyGraph, random: Seeded): { time: number; end: End } => {
  let standing = atStart;
  let time = 0;
  let next: number | string | undefined = policy.start;
  while (typeof next === 'number') {
    const node: PolicyGraph['nodes'][number] | undefined = policy.nodes[next];
    const one: TryOf | undefined = possibleNow(work, standing).find((other) => other.id === node?.action);
    if (!node || !one) throw new Error(`the policy wants ${node?.action}, which cannot be done here`);
    const taken = timeOf(work, one, standing.held);
    time += taken.time;
    const luck = random.unit();
    if (luck < one.damage) return { time: time + work.damageLoss, end: 'damaged' };
    const isSuccess: boolean = luck < one.damage + one.success;
    standing = after(standing, one, { held: taken.held, isSuccess });
    next = isSuccess ? node.onSuccess : node.onFailure;
  }
  if (next === 'reached' && standing.facts.has(work.target)) return { time, end: 'reached' };
  if (next === 'stranded' && isStranded(work, standing)) return { time: time + work.strandedLoss, end: 'stranded' };
  throw new Error(`the policy ends ${next}, the work does not`);
};
