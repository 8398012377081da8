import { documentJsonSchema } from '#record/json-schema';
import { laboratory } from './laboratory-schema.ts';

/** Which JSON Schema (2020-12) describes a laboratory's readings? Shapes only; which readings there are the reader checks. */
export const laboratoryJsonSchema = (): Readonly<Record<string, unknown>> =>
  documentJsonSchema(laboratory, {
    id: 'urn:unfasten:laboratory:1',
    title: 'Laboratory',
    description: 'How one laboratory reads the rules that leave room, format unfasten/laboratory, version 1.',
  });
