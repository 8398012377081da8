import type { Session } from '../schema/assessment.ts';

/**
 * How long was a session held within a stretch of time [s]? Gives a function of the stretch's ends; holds that overlap count
 * once. Cost: a sort, then the logarithm of the number of holds a question.
 */
export const holdClock = (session: Session): ((from: number, to: number) => number) => {
  const holds = merged(Object.values(session.holds ?? {}));
  const before: number[] = [0];
  for (const { from, to } of holds) before.push((before.at(-1) ?? 0) + to - from);
  const heldUntil = (time: number): number => {
    let low = 0;
    let high = holds.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if ((holds[middle]?.from ?? 0) < time) low = middle + 1;
      else high = middle;
    }
    const last = holds[low - 1];
    return (before[low] ?? 0) - (last ? Math.max(0, last.to - time) : 0);
  };
  return (from, to) => (to > from ? heldUntil(to) - heldUntil(from) : 0);
};

interface Stretch {
  from: number;
  to: number;
}

const merged = (holds: readonly Readonly<Stretch>[]): readonly Stretch[] => {
  const disjoint: Stretch[] = [];
  for (const { from, to } of holds.toSorted((a, b) => a.from - b.from)) {
    const last = disjoint.at(-1);
    if (last && from <= last.to) last.to = Math.max(last.to, to);
    else if (to > from) disjoint.push({ from, to });
  }
  return disjoint;
};
