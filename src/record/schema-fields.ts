import { z } from 'zod';
import { withoutWrappers } from './read/collect-issues.ts';
import { assessment } from './schema/assessment.ts';

/** One field of the schema that holds a plain value: its pattern (`*` for ids and list items) and what governs it. */
export interface SchemaField {
  readonly pattern: string;
  readonly schema: z.ZodType;
}

let fields: readonly SchemaField[] | undefined;

/** Which fields that hold a plain value does the schema of an assessment have? Unions of plain values count as one field. */
export const schemaFields = (): readonly SchemaField[] => {
  fields ??= [...fieldsBelow(assessment, [])];
  return fields;
};

function* fieldsBelow(wrapped: z.ZodType, path: readonly string[]): Generator<SchemaField> {
  const schema = withoutWrappers(wrapped);
  const below = (child: unknown, segment: string) => fieldsBelow(child as z.ZodType, [...path, segment]);
  if (schema instanceof z.ZodObject)
    for (const [name, field] of Object.entries(schema.shape)) yield* below(field, name);
  else if (schema instanceof z.ZodRecord) yield* below(schema.valueType, '*');
  else if (schema instanceof z.ZodArray) yield* below(schema.element, '*');
  else if (schema instanceof z.ZodTuple) for (const item of new Set(schema._zod.def.items)) yield* below(item, '*');
  else if (schema instanceof z.ZodUnion && schema.options.some((option) => !isPlain(option as z.ZodType)))
    for (const option of schema.options) yield* fieldsBelow(option as z.ZodType, path);
  else yield { pattern: path.join('/'), schema };
}

const isPlain = (schema: z.ZodType): boolean =>
  !(schema instanceof z.ZodObject || schema instanceof z.ZodArray || schema instanceof z.ZodRecord);
