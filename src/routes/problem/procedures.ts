import type { DeviceFastener } from '#record/device/device';
import type { Assessment } from '#record/schema/assessment';

/** Does the maker's procedure release this fastener in this way? By the way it names; else by an action and tools that fit. */
export const shownByProcedure = (assessment: Assessment, fastener: DeviceFastener, wayId: string): boolean => {
  const way = fastener.ways[wayId];
  return Object.values(assessment.procedures ?? {}).some((procedure) =>
    procedure.steps.some((step) => {
      if (step.target !== fastener.id && !step.released?.includes(fastener.id)) return false;
      if (step.way !== undefined) return step.way === wayId;
      return way?.actions.some((action) => action.do === step.do && sameTools(action.tools, step.tools)) ?? false;
    }),
  );
};

const sameTools = (a: readonly string[] | undefined, b: readonly string[] | undefined): boolean =>
  [...(a ?? [])].sort().join('\n') === [...(b ?? [])].sort().join('\n');
