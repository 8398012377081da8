import type { Ground } from './ground.ts';
import { isOpen, leapsOf } from './leaps.ts';
import type { OpenDepth } from './open-trials.ts';
import { isMade, type OpenTrial } from './with-trial.ts';

/** Which trials not made yet do routes to these parts rest on, each once, as they are met? Those made already are left out. */
export const candidates = (ground: Ground, open: readonly OpenDepth[]): readonly OpenTrial[] => {
  const found = new Map<string, OpenTrial>();
  for (const depth of open)
    for (const trial of leapsTo(depth, ground)) {
      const key = [trial.subject, ...[...trial.off].sort()].join('\n');
      if (!found.has(key) && !isMade(trial, ground.source)) found.set(key, trial);
    }
  return [...found.values()];
};

/**
 * On which trials do routes to a part rest that nobody has shown? On the fewest-step route that nothing excludes; and, for each
 * thing in question, on the best route were only that reached as freely as nothing excludes. The latter has more off by then,
 * so that its answer says more, and it stands for the former.
 */
const leapsTo = ({ part, shown }: OpenDepth, ground: Ground): readonly OpenTrial[] => {
  const { source, pessimistic, optimistic } = ground;
  const free = ground.reach(optimistic, part)?.actions ?? [];
  const worked = ground.reach(pessimistic, part)?.actions ?? [];
  const leaps = new Map(leapsOf(free, source).map((leap) => [leap.subject, leap]));
  const inQuestion = [...leaps.keys(), ...worked.map(({ subject }) => subject).filter((id) => isOpen(id, source))];
  for (const subject of new Set(inQuestion)) {
    const mixed = ground.reach(ground.freely(subject), part);
    if (!mixed || (shown !== undefined && mixed.steps >= shown)) continue;
    const leap = leapsOf(mixed.actions, source).find((one) => one.subject === subject);
    if (leap) leaps.set(subject, leap);
  }
  return [...leaps.values()];
};
