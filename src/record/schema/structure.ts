import { z } from 'zod';
import { action, day, duration, id, key, mapOf, quantityText, role, sourced, text } from './basics.ts';

/** What was tried, with exactly what off, on which specimen, and what came of it. */
export const trial = z.strictObject({
  off: z.array(id).max(2000).describe('parts off (aside or free) and fasteners released at that moment'),
  came: z.enum(['yes', 'no', 'damaged']),
  ruling: z
    .enum(['counts-as-came', 'counts-as-not'])
    .optional()
    .describe('a decision on a trial that came but damaged something'),
  specimen: id.optional(),
  session: id.optional(),
  entry: id.optional(),
  ...sourced,
});

/**
 * A question put before an act that made it unanswerable on this specimen, and waved off. It is no trial: it shows neither that
 * the part comes nor that it does not.
 */
export const untried = z.strictObject({
  off: z.array(id).max(2000).describe('parts off (aside or free) and fasteners released at that moment'),
  stillIn: z.array(id).min(1).max(200).describe('what was still in and about to come away'),
  specimen: id.optional(),
  session: id.optional(),
  note: text.optional(),
});

/** What had to be off, by sight? Alternatives of sets: `[[a],[b,c]]` is a off, or b and c off; `[]` is known free. */
export const behind = z
  .array(z.array(id).max(500))
  .max(200)
  .describe('alternatives of sets; [] is known free; missing is not known');

/** Precedence for another reason than access. Trials never clear it; only a decision does. */
export const requirement = z.strictObject({
  first: z.array(id).min(1).max(200).describe('parts to be off or fasteners to be released before'),
  why: z.enum(['isolation', 'support', 'makers-instruction']),
  reason: text.optional(),
  ...sourced,
});

/** One action inside a way or a removal, with the tools in use at once. */
export const wayAction = z.strictObject({
  do: action,
  tools: z.array(id).max(20).optional().describe('tools used at once; none is bare hands'),
  takes: duration.optional().describe('how long, where no measured session says it; an estimate that says so'),
  place: text.optional().describe('where on the product; several heatings of one place are reheating'),
  afterRelease: z.boolean().optional().describe('done after the fastener has let go, as cleaning residue is'),
  unattended: z.boolean().optional(),
  reach: quantityText.optional().describe('temperature or amount, e.g. "75 °C", "4 mL"'),
  note: text.optional(),
});

/** Chances of a way where the bench has not counted them: success and damage per try, with their source. */
export const odds = z.strictObject({
  success: z.number().min(0).max(1),
  damage: z.number().min(0).max(1).optional(),
  tries: z.int().min(0).max(1_000_000).optional().describe('how many tries stand behind it'),
  ...sourced,
});

/** One manner of releasing a fastener: its actions, tools, odds, and the reuse class it leaves. */
export const way = z.strictObject({
  name: text.optional(),
  actions: z.array(wayAction).min(1).max(30),
  leaves: z.enum(['reusable', 'resupplied', 'removable', 'destroyed']).optional(),
  odds: odds.optional(),
  fallback: id.optional().describe('way to be taken when this one failed, where failing changes the choice'),
  ...sourced,
});

/** What is fastened in which way? A set of like fasteners at one place. */
export const fastenerKind = z.enum([
  'screw',
  'nut',
  'pin',
  'clip',
  'hook',
  'adhesive',
  'stretch-release-strip',
  'tape',
  'gasket',
  'connector',
  'solder',
  'magnet',
  'press-fit',
  'thermal-pad',
  'rivet',
  'weld',
  'other',
]);

/** A set of like fasteners at one place, in the law's wide sense (connectors and adhesives are fasteners). */
export const fastener = z.strictObject({
  name: text.optional(),
  kind: fastenerKind,
  count: z.int().min(1).max(10_000).optional(),
  drive: text.optional(),
  thread: text.optional(),
  adhesive: z
    .enum(['stretch-release', 'film-or-foam', 'hot-melt', 'liquid-cured', 'optically-clear', 'thermal', 'potting'])
    .optional(),
  between: z
    .tuple([id, id])
    .optional()
    .describe('two parts, or a part and "chassis"; missing: it was named at the bench, and nobody said what it holds'),
  electrical: z.boolean().optional().describe('carries current; a connector or solder joint does unless it says not'),
  tether: z
    .boolean()
    .optional()
    .describe('a cable long enough that the part can be laid aside while it stays connected'),
  ways: mapOf(way).optional(),
  trials: mapOf(trial).optional(),
  behind: behind.optional(),
  requires: mapOf(requirement).optional(),
  absent: z.literal(true).optional(),
  ...sourced,
});

/** One physical item; two speakers are two parts of one role. */
export const part = z.strictObject({
  name: text.optional(),
  role: role.optional(),
  within: id.optional().describe('the part that carries it; it goes along when the carrier comes away'),
  face: key.optional().describe('the face of the product it is reached from, for the depth section'),
  absent: z.literal(true).optional().describe('known not to exist'),
  mass: quantityText.optional(),
  dimensions: text.optional(),
  material: text.optional(),
  markings: text.optional(),
  energy: quantityText.optional().describe('rated energy of a cell, e.g. "17 Wh"'),
  lithium: z.boolean().optional().describe('holds a lithium cell'),
  serialised: z.boolean().optional().describe('carries a code paired to one device'),
  remoteNotification: z.boolean().optional().describe('full function needs a remote notification of its serial number'),
  remoteAuthorisation: z
    .boolean()
    .optional()
    .describe('full function needs a remote authorisation of its serial number'),
  removal: z
    .strictObject({ actions: z.array(wayAction).min(1).max(30).optional(), takes: duration.optional(), ...sourced })
    .optional()
    .describe('how it is lifted away once nothing holds it; bare hands unless said'),
  trials: mapOf(trial).optional(),
  untried: mapOf(untried).optional().describe('questions that were put and not tried'),
  behind: behind.optional(),
  requires: mapOf(requirement).optional(),
  putBack: z.enum(['shown', 'not-shown']).optional(),
  ...sourced,
});

/** A named decision with a reason: the only thing that overrides a requirement or rules on a damage. */
export const decision = z.strictObject({
  overrides: text.describe('address of what is overridden, e.g. "fasteners/ear-flex/requires/isolation"'),
  reason: text.min(1),
  by: text.min(1),
  on: day.optional(),
  ...sourced,
});
