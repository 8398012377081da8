import type { Entry } from '#record/schema/assessment';
import type { Naming } from '../commands/bench-patches.ts';

/**
 * Did this very thing fail of late? The last named entries are looked at, the last first, up to where the target let go. Of one
 * way another action may fail; without a way named it is the action that failed.
 */
export const failedBefore = (recent: readonly Entry[], { target, do: action, way }: Naming): boolean => {
  for (const entry of recent) {
    if (entry.target !== target) continue;
    if (entry.outcome === undefined || entry.outcome === 'done') {
      if (entry.do === action) return false;
      continue;
    }
    if (entry.outcome !== 'failed') continue;
    const isSameWay = entry.way === undefined || way === undefined ? entry.do === action : entry.way === way;
    if (isSameWay) return true;
  }
  return false;
};
