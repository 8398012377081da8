import { z } from 'zod';
import { action, duration, id, mapOf, moment, quantityText, sourced, text } from './basics.ts';

/** One logged action. `at` is monotonic seconds from the session's start, the end of the action; `took` includes taking the tool up. */
export const entry = z.strictObject({
  at: z.number().min(0).max(1e8).describe('seconds from the start of the session, the end of the action'),
  do: action.optional().describe('missing: marked but not named yet'),
  target: id.optional().describe('fastener or part'),
  way: id.optional().describe('which way of the fastener'),
  tools: z.array(id).max(20).optional().describe('tools in use at once; missing is not known, [] is bare hands'),
  took: duration.optional(),
  interval: id.optional().describe('a shared interval of the session, for actions caught up later'),
  began: z.number().min(0).max(1e8).optional().describe('start of a heat, soak or cure that may overlap other work'),
  ends: id.optional().describe('the mark of its beginning, whose place this entry takes'),
  attended: z.boolean().optional(),
  goal: z
    .union([id, z.array(id).max(100)])
    .optional()
    .describe('what the operator was going for; missing binds everything after it'),
  outcome: z.enum(['done', 'partial', 'failed']).optional().describe('missing is done'),
  did: z.int().min(0).max(10_000).optional().describe('how many of the set came off, for partial'),
  because: z
    .enum(['blocked', 'tore', 'stripped', 'slipped', 'would-not-let-go', 'wrong-tool', 'interrupted', 'other'])
    .optional(),
  released: z
    .array(id)
    .max(500)
    .optional()
    .describe('fasteners released; missing means the target when it is a fastener and the outcome is done'),
  free: z.array(id).max(200).optional().describe('parts that came free'),
  aside: z.array(id).max(200).optional().describe('parts that came aside'),
  refitted: z.array(id).max(500).optional().describe('parts and fasteners put back by this entry'),
  remote: z.enum(['notification', 'authorisation']).optional().describe('what a pairing action was'),
  place: text.optional(),
  reach: quantityText.optional().describe('temperature reached or amount used'),
  cellSide: quantityText.optional().describe('temperature at the cell side, e.g. "52 °C"'),
  named: z.enum(['at-once', 'later']).optional(),
  naming: z.enum(['suggested', 'by-hand']).optional(),
  reviewed: z.boolean().optional(),
  corrects: id.optional().describe('the earlier entry this one corrects; the earlier one stays'),
  withdrawn: z.boolean().optional().describe('with corrects: the earlier entry did not happen'),
  damage: z.array(id).max(50).optional(),
  note: text.optional(),
  evidence: z.array(id).max(200).optional(),
});

/** A pause that is not work, with its reason. */
export const hold = z.strictObject({
  from: z.number().min(0).max(1e8),
  to: z.number().min(0).max(1e8),
  reason: text,
});

/**
 * A stretch of a session in which something was done again, for the camera or because the first time did not show it. Its entries
 * say what came off and what did not like any other; they give no times and no odds, as those of a retake session do.
 */
export const retake = z.strictObject({
  from: z.number().min(0).max(1e8),
  to: z.number().min(0).max(1e8).optional().describe('missing: it goes on'),
  repeats: id.optional().describe('the entry of this session that is done again'),
  note: text.optional(),
});

/** A stretch of bench work of one kind. Never rewritten: a correction is a new entry that points at the old. */
export const session = z.strictObject({
  kind: z.enum(['exploration', 'measured', 'retake', 'swap', 'reassembly']),
  specimen: id,
  operator: text.optional(),
  start: moment,
  startsAs: z
    .union([z.literal('complete'), z.strictObject({ leftBy: id })])
    .describe('complete, or as another session left the specimen'),
  blind: z.boolean().optional(),
  firmware: text.optional(),
  charge: quantityText.optional(),
  entries: mapOf(entry),
  holds: mapOf(hold).optional(),
  retakes: mapOf(retake).optional().describe('stretches in which something was done again'),
  intervals: mapOf(
    z.strictObject({ from: z.number().min(0), to: z.number().min(0), note: text.optional() }),
  ).optional(),
  note: text.optional(),
  evidence: z.array(id).max(200).optional(),
});

/** A record of its own: what broke, how bad, when found, between which entries it must have happened. */
export const damage = z.strictObject({
  what: text,
  subject: id.optional().describe('part or fastener'),
  severity: z.enum(['cosmetic', 'function', 'safety']),
  specimen: id.optional(),
  session: id.optional(),
  found: id.optional().describe('entry at which it was found'),
  after: id.optional().describe('last entry before which it was certainly whole'),
  before: id.optional().describe('first entry after which it was certainly there'),
  ruling: z.enum(['route-damages-product', 'slip-of-hand', 'undecided']).optional(),
  ...sourced,
});

/** A route as the maker's own documents give it. */
export const procedure = z.strictObject({
  name: text.optional(),
  for: id.describe('part id'),
  document: text.optional(),
  steps: z
    .array(
      z.strictObject({
        do: action,
        target: id.optional(),
        way: id.optional(),
        tools: z.array(id).max(20).optional(),
        released: z.array(id).max(500).optional(),
        free: z.array(id).max(200).optional(),
        aside: z.array(id).max(200).optional(),
        remote: z.enum(['notification', 'authorisation']).optional(),
        place: text.optional(),
        afterRelease: z.boolean().optional(),
        text: text.optional(),
      }),
    )
    .min(1)
    .max(2000),
  ...sourced,
});
