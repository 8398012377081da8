import { z } from 'zod';
import { assessment } from './schema/assessment.ts';
import { id, RESERVED_WORDS } from './schema/basics.ts';
import { schemaDefinitions } from './schema-definitions.ts';

/**
 * Which JSON Schema (2020-12) describes an assessment? Made from the schema the reader uses, with a definition for every
 * named part. It states shapes and ranges; what only the reader checks (references, dimensions, order) is not in it.
 */
export const assessmentJsonSchema = (): Readonly<Record<string, unknown>> =>
  documentJsonSchema(assessment, {
    id: 'urn:unfasten:assessment:1',
    title: 'Assessment',
    description: 'The record of one product under study, format unfasten/assessment, version 1.',
  });

/** Which JSON Schema (2020-12) describes a document of a schema? Parts it shares with the assessment are definitions. */
export const documentJsonSchema = (
  schema: z.ZodType,
  head: { readonly id: string; readonly title: string; readonly description: string },
): Readonly<Record<string, unknown>> => {
  nameDefinitions();
  const { $schema, ...rest } = z.toJSONSchema(schema, {
    target: 'draft-2020-12',
    io: 'input',
    override: ({ zodSchema, jsonSchema }) => {
      if ((zodSchema as unknown) === id) jsonSchema.not = { enum: [...RESERVED_WORDS] };
    },
  });
  return {
    $schema,
    $id: head.id,
    title: head.title,
    description: head.description,
    ...rest,
  };
};

/** Tells the schema library the names; the same names every time, so that calling it again changes nothing. */
const nameDefinitions = (): void => {
  for (const { name, schema, says } of schemaDefinitions) {
    if (schema === assessment) continue;
    const known = z.globalRegistry.get(schema);
    if (known?.id === name) continue;
    z.globalRegistry.add(schema, { ...known, id: name, description: known?.description ?? says });
  }
};
