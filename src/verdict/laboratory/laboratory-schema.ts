import { z } from 'zod';
import { day, id, mapOf, text } from '#record/schema/basics';

/** How one laboratory reads one rule that leaves room, why, at whose word and since when. */
const laboratoryReading = z.strictObject({
  reading: id.describe('one of the readings of this interpretation'),
  reason: text.min(1),
  by: text.min(1),
  on: day,
});

/** A laboratory's own readings, for every assessment of its that does not choose otherwise. */
export const laboratory = z.strictObject({
  format: z.literal('unfasten/laboratory'),
  version: z.literal(1),
  id,
  name: text.min(1),
  edition: z.int().min(1).max(100_000),
  date: day,
  invented: z.boolean().optional().describe('true where the laboratory is made up'),
  note: text.optional(),
  interpretations: mapOf(laboratoryReading).describe('by the id of the interpretation'),
});

/** A laboratory's readings as its document gives them. */
export type Laboratory = z.infer<typeof laboratory>;
