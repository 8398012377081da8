import { z } from 'zod';
import { day, id, mapOf, role, text } from '#record/schema/basics';
import { category } from '#record/schema/product';

/** Every kind of metric a criterion may rest on; what each needs besides its name stands in `metric-kinds.ts`. */
const METRIC_KINDS = [
  'steps',
  'expected-time',
  'damage',
  'reuse-class',
  'tool-class',
  'reversible',
  'pairing',
  'transfer-work',
  'spare-offered',
  'price-ratio',
  'information',
  'update-years',
  'measured',
  'swap-finding',
  'index-score',
] as const;

/** Which computed figure or fact is looked at? Only the fields that its kind needs may stand beside `of`. */
const metric = z.strictObject({
  of: z.enum(METRIC_KINDS).describe('kind of figure or fact'),
  role: role.optional().describe('the part, by its role; of several parts of one role the worst counts'),
  basis: z.enum(['declared', 'observed', 'best']).optional(),
  audience: z.enum(['end-users', 'professionals']).optional(),
  updates: z.enum(['security', 'corrective', 'functionality']).optional(),
  measure: id.optional().describe('id of the measure in the record'),
  unit: text.optional().describe('unit in which the scale of a measured quantity is written, e.g. "kPa"'),
  score: z.enum(['R', 'SDD', 'SF', 'ST', 'SSP', 'SSU', 'SRI']).optional(),
});

/** A number that is computed with exactly: a decimal as written, or a fraction as text (`"1/3"`). */
const exactNumber = z.union([
  z.number().min(-1e12).max(1e12),
  z.string().regex(/^-?\d{1,12}(\.\d{1,12})?(\/[1-9]\d{0,11})?$/, 'a fraction is written as "1/3"'),
]);

/** Points from 0 to 100. */
const points = z.number().min(0).max(100);

/** How does a value become points? One of table, line and words; `none` where there is nothing to measure (0 unless said). */
const scale = z.strictObject({
  table: z
    .array(z.strictObject({ upTo: exactNumber.optional(), points }))
    .min(1)
    .max(50)
    .optional()
    .describe('rows from the lowest value up; the last has no upTo and holds for everything beyond'),
  line: z
    .array(z.strictObject({ at: exactNumber, points }))
    .min(2)
    .max(50)
    .optional()
    .describe('points of a line, straight between them and flat beyond its ends'),
  words: z.record(id, points).optional().describe('points for each word that the metric may be'),
  none: points.optional().describe('where there is no route, no spare or no figure at all; 0 unless said'),
});

/** To which products does a criterion or cap apply? Without a list, to all; a metric of a role only where there is such a part. */
const applies = z.strictObject({
  categories: z.array(category).min(1).max(9).optional(),
  has: z.array(role).min(1).max(8).optional().describe('the product has a part of each of these roles'),
});

/** One criterion: what is looked at, what it earns, what it weighs. */
export const criterion = z.strictObject({
  title: text,
  metric,
  scale,
  weight: exactNumber.describe('above 0; a decimal or a fraction such as "1/3"'),
  applies: applies.optional(),
  note: text.optional(),
});

/** Where one condition holds, the score is at most so high, whatever the criteria say. */
export const cap = z.strictObject({
  title: text,
  when: z.strictObject({
    metric,
    above: exactNumber.optional(),
    below: exactNumber.optional(),
    is: z.array(id).min(1).max(20).optional().describe('any of these words; "none" where there is nothing to measure'),
  }),
  atMost: points,
  applies: applies.optional(),
  note: text.optional(),
});

/** A house rubric: what one laboratory weighs, how, and in which edition. */
export const rubric = z.strictObject({
  format: z.literal('unfasten/rubric'),
  version: z.literal(1),
  id,
  title: text,
  edition: z.int().min(1).max(100_000),
  author: text,
  date: day,
  invented: z.boolean().optional().describe('true where the house is made up'),
  note: text.optional(),
  criteria: mapOf(criterion),
  caps: mapOf(cap).optional(),
});

/** A house rubric as its document gives it. */
export type Rubric = z.infer<typeof rubric>;
/** One criterion of a rubric. */
export type Criterion = z.infer<typeof criterion>;
/** One cap of a rubric. */
export type Cap = z.infer<typeof cap>;
/** Which figure or fact does a criterion or cap look at? */
export type Metric = z.infer<typeof metric>;
/** How do values become points? */
export type Scale = z.infer<typeof scale>;
/** When does a cap hold? */
export type Condition = Cap['when'];
/** The role of a part. */
export type Role = z.infer<typeof role>;
/** The kind of a product. */
export type Category = z.infer<typeof category>;
/** The kind of a metric. */
export type MetricKind = (typeof METRIC_KINDS)[number];
