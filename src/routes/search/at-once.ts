import { hasNode } from '../structure/landmarks.ts';
import type { HandTable } from './hand-table.ts';
import type { Levels } from './levels.ts';
import type { TargetProblem } from './target-problem.ts';

const isWithin = (part: Int32Array, whole: Int32Array): boolean =>
  part.every((word, at) => (word & ~(whole[at] ?? 0)) === 0);
const meets = (one: Int32Array, other: Int32Array): boolean => one.some((word, at) => (word & (other[at] ?? 0)) !== 0);

const isNoWorse = (levels: Levels, one: number, other: number): boolean => {
  const size = levels.tools.length;
  return Math.floor(one / size) <= Math.floor(other / size) && one % size <= other % size;
};

/**
 * Which actions may be done the moment they cost no step, no pick-up and no change of hands? Those that give a fact every
 * route needs, begin no stretch, reach no target, and are at least as good as every other way of that fact: as much given, no
 * more work, no lower points. Proof: docs/method/best-found.md, "Done at once". A byte a local action.
 */
export const atOnceActions = (target: TargetProblem, hands: HandTable, levels: Levels): Uint8Array => {
  const mandatory = new Set(target.mandatory);
  const wanted = (action: number): Int32Array =>
    (target.gives[action] ?? new Int32Array(0)).map((word, at) => word & (target.wanted[at] ?? 0));
  const beats = (action: number, other: number): boolean => {
    const [a, b] = [target.actions[action] ?? 0, target.actions[other] ?? 0];
    return (
      isWithin(wanted(other), wanted(action)) &&
      !meets(target.gives[other] ?? new Int32Array(0), target.resets) &&
      (hands.work[a] ?? 0) <= (hands.work[b] ?? 0) &&
      isNoWorse(levels, levels.ofAction[a] ?? 0, levels.ofAction[b] ?? 0)
    );
  };
  return Uint8Array.from(target.actions, (_, action) => {
    const gives = target.gives[action] ?? new Int32Array(0);
    if (meets(gives, target.resets) || meets(gives, target.goal)) return 0;
    const serves = target.facts.some(
      (fact, local) =>
        hasNode(gives, local) &&
        mandatory.has(fact) &&
        target.gives.every((other, at) => at === action || !hasNode(other, local) || beats(action, at)),
    );
    return serves ? 1 : 0;
  });
};
