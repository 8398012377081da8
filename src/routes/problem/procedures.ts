import type { DeviceFastener } from '#record/device/device';
import { wayOfEntry } from '#record/log/way-of-entry';
import type { Assessment } from '#record/schema/assessment';

/** Does the maker's procedure release this fastener in this way? By the way it names; else by an action and tools that fit, heat before it told apart. */
export const shownByProcedure = (assessment: Assessment, fastener: DeviceFastener, wayId: string): boolean =>
  Object.values(assessment.procedures ?? {}).some((procedure) =>
    procedure.steps.some((step, index) => {
      if (step.target !== fastener.id && !step.released?.includes(fastener.id)) return false;
      const before = procedure.steps.slice(0, index).filter((other) => other.target === step.target);
      return wayOfEntry(fastener, step, before) === wayId;
    }),
  );
