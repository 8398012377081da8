import { z } from '@hono/zod-openapi';
import { storeLimits } from '#store/store-limits';

/** An id of the record: letters, digits, `-`, `_`, `.`; at most 80 characters. It never becomes a file name. */
const assessmentId = z
  .string()
  .max(80)
  .regex(/^[A-Za-z0-9][A-Za-z0-9._-]*$/)
  .openapi({ param: { name: 'assessment', in: 'path' }, example: 'tarn-5' });

const author = z
  .string()
  .min(1)
  .max(storeLimits.authorCharacters)
  .openapi({ description: 'at whose hand, as they name themselves' });
const moment = z.iso.datetime({ offset: true }).openapi({ description: 'RFC 3339 with offset' });
const pointer = z.string().max(storeLimits.pathCharacters);
const note = z.string().max(storeLimits.noteCharacters);
/** Any JSON value, checked by the store: a schema that refers to itself would have to be walked for nothing. */
const value = z.any();

/** One operation of RFC 6902 on id-keyed maps. */
const operation = z
  .discriminatedUnion('op', [
    z.strictObject({ op: z.literal('add'), path: pointer, value }),
    z.strictObject({ op: z.literal('remove'), path: pointer }),
    z.strictObject({ op: z.literal('replace'), path: pointer, value }),
    z.strictObject({ op: z.literal('move'), from: pointer, path: pointer }),
    z.strictObject({ op: z.literal('copy'), from: pointer, path: pointer }),
    z.strictObject({ op: z.literal('test'), path: pointer, value }),
  ])
  .openapi('Operation', { description: 'One operation of RFC 6902; no path goes into a list' });

const patch = z.array(operation).min(1).max(storeLimits.operationsPerChange).openapi('Patch');

/** A document, checked by the store against the record's own schema (schema/assessment.schema.json), not twice here. */
const document = z
  .record(z.string(), z.unknown())
  .openapi('Assessment', { description: 'An assessment: see schema/assessment.schema.json' });

/** What begins an assessment. */
export const beginning = z
  .strictObject({
    change: z.uuid(),
    assessment: assessmentId.optional(),
    document,
    author,
    at: moment,
    note: note.optional(),
  })
  .openapi('Beginning');

/** What is sent to change one. */
export const proposedChange = z
  .strictObject({
    change: z.uuid(),
    base: z.int().min(1),
    patch,
    author,
    at: moment,
    note: note.optional(),
  })
  .openapi('ProposedChange');

/** What is sent to take one back. */
export const undoRequest = z
  .strictObject({ change: z.uuid(), undoes: z.int().min(2), author, at: moment, note: note.optional() })
  .openapi('UndoRequest');

/** What is said of a change that is on disk. */
export const acknowledgement = z
  .strictObject({
    assessment: z.string(),
    change: z.string(),
    revision: z.int(),
    hash: z.string(),
    merged: z.boolean(),
    received: z.string(),
    repeated: z.boolean().openapi({ description: 'true where this change had been taken before' }),
  })
  .openapi('Acknowledgement');

/** An assessment as it stands. */
export const head = z
  .strictObject({ assessment: z.string(), revision: z.int(), hash: z.string(), document })
  .openapi('Head');

/** A change as the ledger keeps it. */
export const storedChange = z
  .strictObject({
    assessment: z.string(),
    revision: z.int(),
    change: z.string(),
    base: z.int(),
    patch,
    author: z.string(),
    at: z.string(),
    note: z.string().optional(),
    received: z.string(),
    undoes: z.int().optional(),
    source: z.strictObject({ name: z.string(), sha256: z.string() }).optional(),
    previous: z.string().optional(),
    hash: z.string(),
  })
  .openapi('StoredChange');

/** A line of the shelf. */
export const shelfItem = z
  .strictObject({
    assessment: z.string(),
    title: z.string().optional(),
    product: z.string(),
    category: z.string().optional(),
    invented: z.boolean(),
    state: z.enum(['prepared', 'logged']),
    revision: z.int(),
    changed: z.string(),
  })
  .openapi('ShelfItem');

/** A kept edition of a house rubric or of a laboratory's readings, without its text. */
export const editionItem = z
  .strictObject({
    id: z.string(),
    edition: z.int(),
    sha256: z.string(),
    author: z.string(),
    at: z.string(),
    received: z.string(),
  })
  .openapi('EditionItem');

/** A kept edition with its text. */
export const keptEdition = editionItem.extend({ text: z.string() }).openapi('KeptEdition');

/** What is sent to keep an edition; id and edition stand in the text. */
export const editionText = z
  .strictObject({
    text: z
      .string()
      .max(storeLimits.rubricBytes)
      .openapi({ description: 'YAML: see schema/rubric.schema.json or schema/laboratory.schema.json' }),
    author,
    at: moment,
  })
  .openapi('EditionText');

/** Id and edition in an address. */
const editionName = (name: string, example: string) =>
  z
    .string()
    .max(80)
    .regex(/^[A-Za-z0-9][A-Za-z0-9._-]*$/)
    .openapi({ param: { name, in: 'path' }, example });

const editionNumber = z
  .string()
  .regex(/^[1-9]\d{0,5}$/)
  .openapi({ param: { name: 'edition', in: 'path' }, example: '1' });

/** Which edition of which rubric? */
export const rubricParams = z.object({ rubric: editionName('rubric', 'quayside-general'), edition: editionNumber });

/** Which edition of which laboratory? */
export const laboratoryParams = z.object({ laboratory: editionName('laboratory', 'quayside'), edition: editionNumber });

/** An error answer, RFC 9457. */
const problem = z
  .looseObject({
    type: z.string(),
    title: z.string(),
    status: z.int(),
    detail: z.string(),
    where: z.string().optional(),
    value: z.string().optional(),
    remedy: z.string().optional(),
  })
  .openapi('Problem');

/** How is a JSON answer described? */
export const json = <Schema extends z.ZodType>(schema: Schema, description: string) => ({
  content: { 'application/json': { schema } },
  description,
});

/** The id in an address. */
export const assessmentParams = z.object({ assessment: assessmentId });

/** How are error answers described? One description for each status; they leave where the server turns errors into answers. */
export const problemAnswers = <Status extends number>(descriptions: Readonly<Record<Status, string>>) =>
  Object.fromEntries(
    Object.entries(descriptions).map(([status, description]) => [
      status,
      { content: { 'application/problem+json': { schema: problem } }, description },
    ]),
  ) as Record<never, never>;
