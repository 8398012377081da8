import { hasNode } from '../structure/landmarks.ts';
import type { HandTable } from './hand-table.ts';
import type { Levels } from './levels.ts';
import type { TargetProblem } from './target-problem.ts';

const isWithin = (part: Int32Array | undefined, whole: Int32Array | undefined): boolean =>
  part?.every((word, at) => (word & ~(whole?.[at] ?? 0)) === 0) ?? true;
const meets = (one: Int32Array | undefined, other: Int32Array): boolean =>
  one?.some((word, at) => (word & (other[at] ?? 0)) !== 0) ?? false;

const isNoWorse = (levels: Levels, one: number, other: number): boolean => {
  const size = levels.tools.length;
  return Math.floor(one / size) <= Math.floor(other / size) && one % size <= other % size;
};

/**
 * Which actions may be done early where that costs nothing, and for which facts? Those that give a fact every route needs, and
 * are at least as good as every other way of that fact. For the fewest steps alone that is: as much given. For best found also:
 * no stretch begun, no target reached, no more work, no lower points. Proofs: docs/method/best-found.md, "Done at once" and
 * "Done first". By local action: the facts of which it must newly give one; undefined where there are none.
 */
export const earlyActions = (
  target: TargetProblem,
  { hands, levels, order }: { readonly hands: HandTable; readonly levels: Levels; readonly order: 'steps' | 'best' },
): readonly (Int32Array | undefined)[] => {
  const mandatory = new Set(target.mandatory);
  const wanted = target.gives.map((gives) => gives.map((word, at) => word & (target.wanted[at] ?? 0)));
  const isPlain = (action: number): boolean => order === 'steps' || !meets(target.gives[action], target.resets);
  const beats = (action: number, other: number): boolean => {
    if (!isWithin(wanted[other], wanted[action]) || !isPlain(other)) return false;
    if (order === 'steps') return true;
    const [a, b] = [target.actions[action] ?? 0, target.actions[other] ?? 0];
    const isQuick = (hands.work[a] ?? 0) <= (hands.work[b] ?? 0);
    return isQuick && isNoWorse(levels, levels.ofAction[a] ?? 0, levels.ofAction[b] ?? 0);
  };
  const serves = (action: number, local: number): boolean =>
    target.gives.every((other, at) => at === action || !hasNode(other, local) || beats(action, at));
  return target.actions.map((_, action) => {
    const gives = target.gives[action] ?? new Int32Array(0);
    if (order === 'best' && (!isPlain(action) || meets(gives, target.goal))) return undefined;
    const served = new Int32Array(target.words);
    for (const [local, fact] of target.facts.entries())
      if (hasNode(gives, local) && mandatory.has(fact) && serves(action, local))
        served[local >> 5] = (served[local >> 5] ?? 0) | (1 << (local & 31));
    return served.some((word) => word !== 0) ? served : undefined;
  });
};
