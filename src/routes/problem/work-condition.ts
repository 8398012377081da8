import { NO_TRIALS } from '#record/log/trials';
import type { RouteSource } from './from-record.ts';
import { type ReachCondition, reachCondition } from './reachability.ts';
import { precedencesOf } from './requirements.ts';
import type { Reach } from './route-problem.ts';

/**
 * When may a part or fastener be worked on, precedence for other reasons included? Access as {@link reachCondition} has it,
 * and whatever must come first by isolation, support or the maker's instruction.
 */
export const workCondition = (subject: string, source: RouteSource, reach: Reach): ReachCondition => {
  const { assessment, device, trials } = source;
  const access = reachCondition(subject, trials.get(subject) ?? NO_TRIALS, { device, reach });
  if (!access.reachable) return access;
  const first = precedencesOf(subject, assessment, device).flatMap((precedence) => precedence.first);
  return { ...access, needs: [...new Set([...access.needs, ...first])] };
};
