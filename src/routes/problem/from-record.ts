import type { Device } from '#record/device/device';
import { pickupMilliseconds } from '#record/log/durations';
import type { Experience } from '#record/log/experience';
import type { SubjectTrials } from '#record/log/trials';
import type { Assessment } from '#record/schema/assessment';
import { PRIORITY_ROLE_NAMES } from './priority-roles.ts';
import { type Building, releases } from './releases.ts';
import { removals } from './removals.ts';
import type { Reach, RouteAction, RouteProblem, RouteTool } from './route-problem.ts';

/** Everything a planning problem is built from: the record, its device, trials and experience. */
export interface RouteSource {
  readonly assessment: Assessment;
  readonly device: Device;
  readonly trials: ReadonlyMap<string, SubjectTrials>;
  readonly experience: Experience;
}

/**
 * What may be done to this device, from the complete product? One action for each way of each fastener, one for lifting each
 * part away, one for laying a part aside where a cable allows it. Pessimistic: only what trials or sight prove reachable;
 * optimistic: whatever no failed trial excludes, actions never shown included. See docs/method/planning-problem.md.
 */
export const routeProblem = (source: RouteSource, reach: Reach): RouteProblem => {
  const building: Building = { reach, unreachable: {} };
  const parts = [...source.device.parts.values()];
  const actions = [
    ...[...source.device.fasteners.values()].flatMap((fastener) => releases(fastener, source, building)),
    ...parts.flatMap((part) => removals(part, source, building)),
  ];
  const priorityParts = parts.filter((part) => PRIORITY_ROLE_NAMES.has(part.role ?? '')).map((part) => part.id);
  const { unreachable } = building;
  return { reach, tools: toolsOf(source.assessment, actions), actions, priorityParts, unreachable };
};

const toolsOf = (assessment: Assessment, actions: readonly RouteAction[]): RouteTool[] => {
  const ids = new Set(actions.flatMap((action) => action.atoms.flatMap((atom) => atom.tools)));
  return [...ids].sort().map((id) => ({
    id,
    pickupMilliseconds: pickupMilliseconds(assessment, [id]),
    holdingAid: assessment.tools?.[id]?.holdingAid === true,
  }));
};
