import type { Assessment } from '#record/schema/assessment';
import type { Laboratory } from './laboratory-schema.ts';

/**
 * Which readings hold for an assessment of a laboratory? The record with the laboratory's readings wherever it chose none
 * itself: the assessment's own choice goes before the laboratory's, and that before the default. Without a laboratory the
 * record itself. The result is for working out figures; it is not what the assessor wrote, and is never kept as that.
 */
export const withLaboratory = (assessment: Assessment, laboratory: Laboratory | undefined): Assessment => {
  if (!laboratory || Object.keys(laboratory.interpretations).length === 0) return assessment;
  const readings = Object.entries(laboratory.interpretations).map(
    ([id, { reading, reason, by, on }]) => [id, { value: reading, reason, by, on }] as const,
  );
  return { ...assessment, interpretations: { ...Object.fromEntries(readings), ...assessment.interpretations } };
};

/** A laboratory's readings as a result names them. */
export type ReadBy = Pick<Laboratory, 'id' | 'name' | 'edition' | 'date'>;

/** Whose readings are these, and in which edition? */
export const readBy = ({ id, name, edition, date }: Laboratory): ReadBy => ({ id, name, edition, date });

/** A laboratory's reading of one rule, as it bears on one assessment. */
export interface HeldReading {
  readonly value: string;
  readonly reason: string;
  readonly by: string;
  readonly on: string;
  /** False where the assessment chose for itself. */
  readonly holds: boolean;
}

/** What does the laboratory say of each rule it reads, and does that hold for the assessment as the assessor wrote it? */
export const laboratoryReadings = (
  assessment: Assessment,
  laboratory: Laboratory | undefined,
): ReadonlyMap<string, HeldReading> =>
  new Map(
    Object.entries(laboratory?.interpretations ?? {}).map(([id, { reading, reason, by, on }]) => [
      id,
      { value: reading, reason, by, on, holds: assessment.interpretations?.[id] === undefined },
    ]),
  );
