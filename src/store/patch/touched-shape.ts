import { z } from 'zod';
import type { LocatedFault } from '#quantity/unfasten-error';
import type { Keys } from '#record/patch/json-pointer';
import { showPath } from '#record/problem';
import { collectIssues, withoutWrappers } from '#record/read/collect-issues';
import { shapeProblems } from '#record/read/shape-problems';
import { assessment } from '#record/schema/assessment';

/**
 * Where does a document break the record's shape, if it fitted before these places were written? Looks only along the
 * places, so that the cost does not grow with the log; a document written as a whole is looked through whole. The words
 * are those of the record's own reader.
 */
export const shapeFaults = (document: unknown, written: readonly Keys[]): readonly LocatedFault[] => {
  if (written.every((place) => fitsAlong(document, place))) return [];
  return shapeProblems(document).map(({ path, message, value, remedy }) => ({
    path: showPath(path),
    message,
    value,
    remedy,
  }));
};

/** Does the record's shape hold at a place, and does the map above it allow what is there or missing? */
const fitsAlong = (document: unknown, place: Keys): boolean => {
  let schema: z.ZodType = assessment;
  let value = document;
  for (const key of place) {
    const bare = withoutWrappers(schema);
    const map = typeof value === 'object' && value !== null && !Array.isArray(value) ? value : undefined;
    // A later operation took the map away; that operation's own place is looked at too.
    if (value === undefined) return true;
    const inner = map && schemaBelow(bare, key);
    if (inner === undefined) return collectIssues(schema, value).length === 0;
    const isThere = map !== undefined && Object.hasOwn(map, key);
    if (!isThere && bare instanceof z.ZodRecord) return true;
    if (isThere && bare instanceof z.ZodRecord && !(bare.keyType as z.ZodType).safeParse(key).success) return false;
    schema = inner;
    value = isThere ? (map as Record<string, unknown>)[key] : undefined;
    if (!isThere) return schema.safeParse(undefined).success;
  }
  return collectIssues(schema, value).length === 0;
};

/** Unions and lists are not looked into: the value that they govern is checked whole. */
const schemaBelow = (schema: z.ZodType, key: string): z.ZodType | undefined => {
  if (schema instanceof z.ZodRecord) return schema.valueType as z.ZodType;
  if (!(schema instanceof z.ZodObject)) return undefined;
  return Object.hasOwn(schema.shape, key) ? (schema.shape[key] as z.ZodType) : undefined;
};
