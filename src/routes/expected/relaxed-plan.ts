import { type Bits, hasBit, members } from './bits.ts';
import type { PlanSetting } from './choices.ts';
import type { Move } from './moves.ts';
import type { WorkState } from './work-state.ts';

/**
 * Which moves would a plan take if nothing failed and no fact were shared? Additive relaxation: a fact costs what its
 * cheapest move and that move's needs cost, a move its time and loss a success.
 */
export const relaxedPlan = (setting: PlanSetting, state: WorkState): ReadonlySet<Move> => {
  const open = setting.table.moves.filter((_, index) => hasBit(state.open, index));
  const costs = new Array<number>(setting.table.factCount).fill(Number.POSITIVE_INFINITY);
  const givers = new Map<number, Move>();
  for (const fact of members(state.facts)) costs[fact] = 0;
  for (let isChanged = true; isChanged; ) {
    isChanged = false;
    for (const move of open) {
      const cost = weight(setting, move) + sumOf(move.needs, costs) + clauseSum(move, costs);
      for (const fact of members(move.gives)) {
        if (cost >= (costs[fact] ?? 0)) continue;
        costs[fact] = cost;
        givers.set(fact, move);
        isChanged = true;
      }
    }
  }
  return collected(setting.table.target, { costs, givers });
};

const weight = ({ table, losses }: PlanSetting, move: Move): number =>
  (move.milliseconds + (table.pickup[0]?.[move.firstTools] ?? 0) / 2 + move.damage * losses.damageMilliseconds + 1) /
  Math.max(move.success, 1e-9);

const sumOf = (facts: Bits, costs: readonly number[]): number =>
  members(facts).reduce((sum, fact) => sum + (costs[fact] ?? 0), 0);

const clauseSum = (move: Move, costs: readonly number[]): number =>
  move.clauses.reduce((sum, clause) => sum + Math.min(...clause.map((alternative) => sumOf(alternative, costs))), 0);

const cheapest = (clause: readonly Bits[], costs: readonly number[]): Bits =>
  clause.reduce((best, alternative) => (sumOf(alternative, costs) < sumOf(best, costs) ? alternative : best));

const collected = (
  target: Bits,
  { costs, givers }: { readonly costs: readonly number[]; readonly givers: ReadonlyMap<number, Move> },
): ReadonlySet<Move> => {
  const plan = new Set<Move>();
  const queue: number[] = [...members(target)];
  for (let fact = queue.pop(); fact !== undefined; fact = queue.pop()) {
    const move = givers.get(fact);
    if (!move || plan.has(move)) continue;
    plan.add(move);
    queue.push(...members(move.needs), ...move.clauses.flatMap((clause) => members(cheapest(clause, costs))));
  }
  return plan;
};
