import { z } from 'zod';
import type { PathSegment } from '../problem.ts';
import { withoutWrappers } from './collect-issues.ts';

/** Which schema governs an id path? `undefined` where none does. A union is looked into for the branch that goes on. */
export const schemaAt = (schema: z.ZodType, path: readonly PathSegment[]): z.ZodType | undefined => {
  let here: z.ZodType | undefined = schema;
  for (const segment of path) here = here && below(withoutWrappers(here), segment);
  return here && withoutWrappers(here);
};

const below = (schema: z.ZodType, segment: PathSegment): z.ZodType | undefined => {
  if (schema instanceof z.ZodObject) {
    const shape: Record<string, z.ZodType> = schema.shape;
    return Object.hasOwn(shape, segment) ? shape[segment] : undefined;
  }
  if (schema instanceof z.ZodRecord) return schema.valueType as z.ZodType;
  if (schema instanceof z.ZodArray) return schema.element as z.ZodType;
  if (schema instanceof z.ZodTuple) return schema._zod.def.items[Number(segment)] as z.ZodType | undefined;
  if (!(schema instanceof z.ZodUnion)) return undefined;
  for (const option of schema.options) {
    const found = below(withoutWrappers(option as z.ZodType), segment);
    if (found) return found;
  }
  return undefined;
};

/** Which field names may stand in a map governed by this schema? Empty where ids are free. */
export const fieldNames = (schema: z.ZodType | undefined): readonly string[] => {
  if (schema instanceof z.ZodObject) return Object.keys(schema.shape);
  if (schema instanceof z.ZodRecord && schema.keyType instanceof z.ZodEnum) return schema.keyType.options.map(String);
  if (schema instanceof z.ZodUnion)
    return schema.options.flatMap((option) => fieldNames(withoutWrappers(option as z.ZodType)));
  return [];
};
