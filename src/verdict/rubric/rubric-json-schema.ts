import { documentJsonSchema } from '#record/json-schema';
import { rubric } from './rubric-schema.ts';

/** Which JSON Schema (2020-12) describes a house rubric? Shapes and ranges; what fits which metric only the reader checks. */
export const rubricJsonSchema = (): Readonly<Record<string, unknown>> =>
  documentJsonSchema(rubric, {
    id: 'urn:unfasten:rubric:1',
    title: 'House rubric',
    description: 'What one laboratory weighs and how, format unfasten/rubric, version 1.',
  });
