import { z } from 'zod';
import { sentence } from '#quantity/counts';
import { withoutWrappers } from './read/collect-issues.ts';
import { type SchemaDefinition, schemaDefinitions } from './schema-definitions.ts';

const INTRODUCTION = `# The record

This page is made from the schema by \`tools/schema-docs.ts\`; do not edit it by hand.

An assessment is a folder: \`assessment.yaml\` (or \`.yml\`, \`.json\`; one of them) and \`evidence/\`. The YAML is that of version
1.2 without tags and merge keys; \`yes\`, \`no\`, \`on\` and \`off\` are texts. Every collection is a map from ids to items, so that
the address of a fact is its id path, such as \`fasteners/tray-screws/ways/undo\`. A field that is left out means "not known";
\`absent: true\` means "known not to exist". Fields marked * must be there. Quantities are described in
[quantities](../method/quantities.md), sizes in [limits](limits.md).
`;

/** What may stand in an assessment, field by field, as Markdown? Made from the schema, so that it cannot fall behind it. */
export const recordReference = (): string => {
  const sections = schemaDefinitions.map(section);
  return `${[INTRODUCTION, ...sections].join('\n').trimEnd()}\n`;
};

const section = (definition: SchemaDefinition): string => {
  const { name, schema, says } = definition;
  const bare = withoutWrappers(schema);
  const rows = bare instanceof z.ZodObject ? objectRows(bare, '') : [];
  const body =
    rows.length > 0
      ? ['| field | value | meaning |', '| --- | --- | --- |', ...rows]
      : [`${sentence(typeWords(schema, true))}.`];
  return [`## ${name}`, '', says, '', ...body, ''].join('\n');
};

const objectRows = (schema: z.ZodObject, prefix: string): readonly string[] =>
  Object.entries(schema.shape as Record<string, z.ZodType>).flatMap(([name, field]) =>
    fieldRows(`${prefix}${name}`, field),
  );

const fieldRows = (name: string, field: z.ZodType): readonly string[] => {
  const required = !(field instanceof z.ZodOptional);
  const meaning = describedBy(field);
  const row = `| \`${name}\`${required ? ' *' : ''} | ${cell(typeWords(field, false))} | ${cell(meaning)} |`;
  return [row, ...nestedRows(name, field)];
};

/** Maps and lists of fields that have no section of their own are described in place, by their path. */
const nestedRows = (name: string, field: z.ZodType): readonly string[] => {
  const bare = withoutWrappers(field);
  if (definitionOf(bare)) return [];
  if (bare instanceof z.ZodObject) return objectRows(bare, `${name}/`);
  if (bare instanceof z.ZodArray) return nestedRows(`${name}/*`, bare.element as z.ZodType);
  if (bare instanceof z.ZodRecord) return nestedRows(`${name}/*`, bare.valueType as z.ZodType);
  if (bare instanceof z.ZodUnion) return bare.options.flatMap((option) => nestedRows(name, option as z.ZodType));
  return [];
};

const describedBy = (field: z.ZodType): string => {
  const bare = withoutWrappers(field);
  const own = field.description ?? bare.description ?? '';
  return own === definitionOf(bare)?.schema.description ? '' : own;
};

/** Which named part of the schema is this, or was it made from by adding a description? */
const definitionOf = (schema: z.ZodType): SchemaDefinition | undefined => {
  let here: z.core.$ZodType | undefined = schema;
  while (here) {
    const found = schemaDefinitions.find((definition) => definition.schema === here);
    if (found) return found;
    here = here._zod.parent;
  }
  return undefined;
};

const typeWords = (wrapped: z.ZodType, spelledOut: boolean): string => {
  const nullable =
    wrapped instanceof z.ZodNullable || (wrapped instanceof z.ZodOptional && wrapped.unwrap() instanceof z.ZodNullable);
  const schema = withoutWrappers(wrapped);
  const definition = spelledOut ? undefined : definitionOf(schema);
  const link = definition ? `[${definition.name}](#${definition.name.toLowerCase()})` : undefined;
  const words = link === undefined ? plainWords(schema) : definition?.name === 'id' ? `an ${link}` : link;
  return nullable ? `${words} or null` : words;
};

const plainWords = (schema: z.ZodType): string => {
  if (schema instanceof z.ZodArray)
    return `list of ${typeWords(schema.element as z.ZodType, false)}${range(schema, ' items')}`;
  if (schema instanceof z.ZodTuple)
    return `list of two: ${schema._zod.def.items.map((item) => typeWords(item as z.ZodType, false)).join(', ')}`;
  if (schema instanceof z.ZodRecord)
    return `map from ${typeWords(schema.keyType as z.ZodType, false)} to ${typeWords(schema.valueType as z.ZodType, false)}`;
  if (schema instanceof z.ZodEnum) return schema.options.map((option) => `\`${option}\``).join(', ');
  if (schema instanceof z.ZodLiteral) return [...schema.values].map((value) => `\`${String(value)}\``).join(', ');
  if (schema instanceof z.ZodUnion)
    return schema.options.map((option) => typeWords(option as z.ZodType, false)).join(', or ');
  if (schema instanceof z.ZodBoolean) return 'true or false';
  if (schema instanceof z.ZodNumber)
    return `${schema.format === 'safeint' ? 'whole number' : 'number'}${range(schema, '')}`;
  if (schema instanceof z.ZodObject) return 'map of fields';
  return `text${range(schema, ' characters')}`;
};

const range = (schema: z.ZodType, unit: string): string => {
  const { minimum, maximum } = schema._zod.bag as { minimum?: number; maximum?: number };
  const upper = maximum === undefined || maximum === Number.MAX_SAFE_INTEGER ? undefined : maximum;
  const lower = minimum === undefined || minimum === Number.MIN_SAFE_INTEGER ? undefined : minimum;
  if (lower !== undefined && upper !== undefined) return `, ${lower} to ${upper}${unit}`;
  if (upper !== undefined) return `, at most ${upper}${unit}`;
  return lower === undefined ? '' : `, at least ${lower}${unit}`;
};

const cell = (text: string): string => text.replaceAll('|', '\\|');
