import { z } from 'zod';
import { day, id, mapOf, moment, quantityText, role, sourced, standing, text } from './basics.ts';
import { dutyFields } from './duty-facts.ts';

/** Which kind of product is it? Only smartphones and slate tablets are in the scope of the EU index. */
export const category = z.enum([
  'smartphone',
  'slate-tablet',
  'feature-phone',
  'cordless-phone',
  'laptop',
  'cordless-vacuum',
  'headphones',
  'watch',
  'other',
]);

/** A published figure with two decimals, kept as text so that no digit is lost (`"3.34"`). */
const publishedScore = z
  .string()
  .regex(/^[1-5]([.,]\d{1,2})?$/, 'a published score has one digit 1 to 5 and up to two decimals, e.g. "3.34"');

/** What does the public product sheet declare? R and its six sub-scores (Regulation (EU) 2023/1669, Annex V Table 8 rows 21 to 21f). */
export const publicSheet = z
  .strictObject({
    class: z.enum(['A', 'B', 'C', 'D', 'E']).optional(),
    R: publishedScore.optional(),
    SDD: publishedScore.optional(),
    SF: publishedScore.optional(),
    ST: publishedScore.optional(),
    SSP: publishedScore.optional(),
    SSU: publishedScore.optional(),
    SRI: publishedScore.optional(),
    ...sourced,
  })
  .describe('public figures as declared: R and its six sub-scores');

/** One line of a declared score sheet: steps, worst fastener class and worst tool class of a role. */
export const scoreSheetLine = z.strictObject({
  absent: z.literal(true).optional().describe('the product has no such part'),
  steps: z.int().min(0).max(10_000).optional(),
  fastener: z.enum(['reusable', 'resupplied', 'removable', 'below-scale']).optional(),
  tool: z.enum(['none', 'basic', 'with-spare', 'with-product', 'commercial', 'below-scale']).optional(),
  remoteActions: z
    .int()
    .min(0)
    .max(20)
    .optional()
    .describe(
      'remote notifications and authorisations needed, not yet counted in steps; 0 is none, missing leaves it open',
    ),
});

/** What does the maker's technical documentation declare for each role? Enough for the index on the declared basis. */
export const scoreSheet = z.strictObject({ parts: z.partialRecord(role, scoreSheetLine), ...sourced });

/** The product under study: the model, not the unit on the bench. */
export const product = z.strictObject({
  name: text,
  maker: text.optional(),
  model: text.optional(),
  category: category.optional(),
  foldable: z
    .strictObject({ foldingDisplay: z.boolean().optional(), hinge: z.boolean().optional(), ...sourced })
    .optional()
    .describe('the law words the switch in two ways: a folding display, or a hinge or folding mechanism present'),
  diagonal: quantityText.optional().describe('screen diagonal, e.g. "6.3 in"'),
  foldedDiagonal: quantityText.optional().describe('diagonal of the second or folded display of a foldable'),
  keyboardAttached: z.boolean().optional(),
  mobileOperatingSystem: z.boolean().optional(),
  rollableMainDisplay: z.boolean().optional(),
  highSecurity: z.boolean().optional(),
  released: day.optional(),
  endOfPlacing: day.optional().describe('day the last unit was, or is announced to be, placed on the market'),
  price: quantityText.optional().describe('e.g. "649 EUR"'),
  predecessor: text.optional().describe('name or folder of the predecessor assessment'),
  predecessorOrder: z
    .array(z.string().max(80))
    .max(5000)
    .optional()
    .describe('ids of what came off the predecessor, in that order: a hint at the bench, and no fact'),
  publicSheet: publicSheet.optional(),
  scoreSheet: scoreSheet.optional(),
  reference: id.optional().describe('the reference specimen, whose own actions make the observed basis'),
  ...dutyFields,
  ...sourced,
});

/** A physical unit on the bench: how obtained, its state, what it may be used for and in which destructive order. */
export const specimen = z.strictObject({
  name: text.optional(),
  obtained: text.optional(),
  sealed: z.boolean().optional(),
  revision: text.optional(),
  region: text.optional(),
  firmware: mapOf(z.strictObject({ version: text, since: moment.optional(), ...sourced })).optional(),
  accountLock: z.enum(['none', 'own-account', 'locked', 'unknown']).optional(),
  condition: text.optional(),
  charge: quantityText.optional().describe('state of charge of the lithium cell when opened, e.g. "25 %"'),
  massBeforeOpening: quantityText.optional(),
  uses: z
    .array(z.enum(['exploration', 'measured', 'retake', 'swap', 'reassembly', 'destructive', 'reserve']))
    .max(20)
    .optional(),
  location: text.optional(),
  ...sourced,
});

/** Is an offer real? `how` says how far it was shown: listed, orderable by a dated attempt, delivered, or refused. */
export const offer = z.strictObject({
  how: z.enum(['listed', 'orderable', 'delivered', 'refused']).optional(),
  memberState: text.optional(),
  standing: standing.optional(),
  ...sourced,
});

/** A spare part as sold: what it replaces and includes, what comes with it, to whom, price and delivery. */
export const spare = z.strictObject({
  name: text,
  replaces: z.array(id).max(100).describe('part ids'),
  includes: z.array(id).max(500).optional().describe('part ids that come with it; the others must be moved over'),
  contents: z
    .strictObject({
      fasteners: z
        .array(id)
        .max(1000)
        .optional()
        .describe('fasteners delivered with it at no extra cost, enough for reassembly'),
      tools: z.array(id).max(200).optional().describe('tools delivered with it or offered free'),
      standing: standing.optional().describe('established once the kit was seen; only then the lists are complete'),
      ...sourced,
    })
    .optional(),
  endUsers: offer.optional(),
  professionals: offer.optional(),
  price: quantityText.optional(),
  delivery: quantityText.optional(),
  deliveryWorkingDays: z.int().min(0).max(1000).optional().describe('delivery counted in working days'),
  standing: standing.optional(),
  ...sourced,
});

/** A tool: what it is, whether it is on the closed list of basic tools, who supplies it, and what taking it up costs. */
export const tool = z.strictObject({
  name: text,
  basicKind: z
    .enum([
      'slotted-driver',
      'cross-recess-driver',
      'hexalobular-driver',
      'hexagon-key',
      'combination-wrench',
      'combination-pliers',
      'stripping-pliers',
      'half-round-nose-pliers',
      'diagonal-cutters',
      'multigrip-pliers',
      'locking-pliers',
      'prying-lever',
      'tweezers',
      'magnifying-glass',
      'spudger',
      'pick',
    ])
    .nullable()
    .optional()
    .describe(
      'which of the 16 basic tools of Regulation (EU) 2023/1669, Annex I (43) it is; null when it is none of them',
    ),
  withProduct: z.boolean().optional().describe('supplied or offered free with the product'),
  onSale: z.boolean().optional().describe('the public can buy it'),
  licensable: z
    .boolean()
    .optional()
    .describe('patents licensed on fair, reasonable, non-discriminatory terms, or none'),
  holdingAid: z.boolean().optional().describe('a fixture, magnifier or glove, no tool under the default reading'),
  pickup: z
    .union([z.number().min(0).max(86_400), quantityText])
    .optional()
    .describe('taking it up: seconds or a quantity of time'),
  hazard: z.enum(['heat', 'solvent', 'blade', 'mains', 'x-ray']).optional(),
  ...sourced,
});
