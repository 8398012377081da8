import { z } from 'zod';
import { day, id, mapOf, moment, quantityText, role, sourced, standing, text } from './basics.ts';
import { damage, procedure, session } from './bench.ts';
import { offer, product, spare, specimen, tool } from './product.ts';
import { decision, fastener, part } from './structure.ts';
import { swap, swapBench } from './swaps.ts';

/** How does an audience get one item of repair information? */
export const access = z.strictObject({
  access: z.enum(['free', 'reasonable-fee', 'deterring-fee', 'not-offered']).optional(),
  standing: standing.optional(),
  ...sourced,
});

/** The eleven items of repair information of Regulation (EU) 2023/1670, Annex II B (D for tablets) 1.1(2)(e). */
export const informationItem = z.enum([
  'identification',
  'exploded-view',
  'wiring-diagrams',
  'board-diagrams',
  'equipment-list',
  'repair-manual',
  'fault-codes',
  'diagnosis-values',
  'software-instructions',
  'failure-logs',
  'professional-repair-access',
]);

/** For how many years is one kind of update guaranteed? From the end of placing on the market. */
export const updateKind = z.strictObject({
  years: z.number().min(0).max(100).optional(),
  standing: standing.optional(),
  ...sourced,
});

/** Parts, information and software support as offered: each with source, date and standing. */
export const supply = z.strictObject({
  parts: z
    .partialRecord(role, z.strictObject({ endUsers: offer.optional(), professionals: offer.optional() }))
    .optional(),
  information: z
    .partialRecord(informationItem, z.strictObject({ endUsers: access.optional(), professionals: access.optional() }))
    .optional(),
  software: z
    .strictObject({
      security: updateKind.optional(),
      corrective: updateKind.optional(),
      functionality: updateKind.optional(),
    })
    .optional(),
});

/** A quantity measured at the bench, with how and on which specimen. */
export const measure = z.strictObject({
  of: text,
  value: quantityText,
  subject: id.optional(),
  specimen: id.optional(),
  method: text.optional(),
  on: moment.optional(),
  ...sourced,
});

/** What somebody claims of the product, and what the bench found. */
export const claim = z.strictObject({
  says: text,
  by: text.optional(),
  finding: text.optional(),
  standing: standing.optional(),
  ...sourced,
});

/** A photograph, clip, document or order that shows something; files are named by their SHA-256. */
export const evidence = z.strictObject({
  kind: z.enum(['photo', 'video', 'document', 'order', 'measurement', 'note', 'screenshot']),
  says: text.optional(),
  file: text.optional().describe('file name inside evidence/'),
  sha256: z
    .string()
    .regex(/^[0-9a-f]{64}$/, 'a SHA-256 is 64 hex digits')
    .optional(),
  taken: moment.optional(),
  session: id.optional(),
  at: z.number().min(0).optional().describe('seconds in the session'),
  source: text.optional(),
});

/** A chosen reading of an ambiguous rule, with the reason. */
export const interpretation = z.strictObject({
  value: text,
  reason: text.optional(),
  by: text.optional(),
  on: day.optional(),
});

/** A named set of assumptions under which a conditional verdict is stated. */
export const expectation = z.strictObject({
  name: text,
  assumes: z
    .array(
      z.enum([
        'announced-holds',
        'expected-holds',
        'unknown-supply-as-law-demands',
        'no-remote-pairing',
        'kits-as-listed',
      ]),
    )
    .max(20)
    .optional(),
  reason: text.optional(),
});

/** The whole record of one product under study. */
export const assessment = z.strictObject({
  format: z.literal('unfasten/assessment'),
  version: z.literal(1),
  title: text.optional(),
  invented: z.boolean().optional().describe('true where product, maker and data are made up'),
  laboratory: text.optional(),
  product,
  faces: mapOf(z.strictObject({ name: text, order: z.int().optional() })).optional(),
  specimens: mapOf(specimen).optional(),
  tools: mapOf(tool).optional(),
  parts: mapOf(part).optional(),
  fasteners: mapOf(fastener).optional(),
  spares: mapOf(spare).optional(),
  supply: supply.optional(),
  sessions: mapOf(session).optional(),
  procedures: mapOf(procedure).optional(),
  damage: mapOf(damage).optional(),
  swaps: mapOf(swap).optional(),
  swapBench: swapBench.optional(),
  measures: mapOf(measure).optional(),
  claims: mapOf(claim).optional(),
  evidence: mapOf(evidence).optional(),
  decisions: mapOf(decision).optional(),
  interpretations: mapOf(interpretation).optional(),
  expectations: mapOf(expectation).optional(),
  notes: mapOf(z.strictObject({ text, on: moment.optional(), by: text.optional() })).optional(),
});

/** One product under study: all that is known and concluded of it. */
export type Assessment = z.infer<typeof assessment>;
/** One physical item. */
export type Part = z.infer<typeof part>;
/** A set of like fasteners at one place. */
export type Fastener = z.infer<typeof fastener>;
/** One manner of releasing a fastener. */
export type Way = z.infer<typeof import('./structure.ts').way>;
/** What was tried, and what came of it. */
export type Trial = z.infer<typeof import('./structure.ts').trial>;
/** A question that was put and not tried. */
export type Untried = z.infer<typeof import('./structure.ts').untried>;
/** A stretch of bench work. */
export type Session = z.infer<typeof session>;
/** One logged action. */
export type Entry = z.infer<typeof import('./bench.ts').entry>;
/** A tool. */
export type Tool = z.infer<typeof tool>;
/** A spare part as sold. */
export type Spare = z.infer<typeof spare>;
/** A route as the maker's documents give it. */
export type Procedure = z.infer<typeof procedure>;
/** One fit of a part into a specimen. */
export type Swap = z.infer<typeof swap>;
/** What is at hand for swaps. */
export type SwapBench = z.infer<typeof swapBench>;
