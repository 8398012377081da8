import { z } from 'zod';
import { limits } from '../limits.ts';
import type { PathSegment } from '../problem.ts';

/** One fault against the schema, as the schema library words it, with its whole path. */
export type Issue = z.core.$ZodIssue;

/** Values given to the schema library at once, at most; bounds what a hostile file can make it keep. */
const BATCH = 20_000;

/**
 * Which values of the data break the schema? The verdict is that of `schema.safeParse`; large maps and lists are given
 * to it item by item, so that the time and memory for a file full of faults stay bounded. Stops at the limit on problems.
 */
export const collectIssues = (schema: z.ZodType, data: unknown): readonly Issue[] => {
  const issues: Issue[] = [];
  collect(schema, { value: data, path: [], issues });
  return issues;
};

interface Visit {
  readonly value: unknown;
  readonly path: readonly PathSegment[];
  readonly issues: Issue[];
}

const collect = (schema: z.ZodType, visit: Visit): void => {
  if (visit.issues.length >= limits.problems) return;
  const bare = withoutWrappers(schema);
  if (countNodes(visit.value, BATCH) < BATCH) parseWhole(schema, visit);
  else if (bare instanceof z.ZodRecord && isMap(visit.value)) collectRecord(bare, visit.value, visit);
  else if (bare instanceof z.ZodObject && isMap(visit.value)) collectObject(bare, visit.value, visit);
  else if (bare instanceof z.ZodArray && Array.isArray(visit.value)) collectArray(bare, visit.value, visit);
  else parseWhole(schema, visit);
};

const parseWhole = (schema: z.ZodType, { value, path, issues }: Visit): void => {
  const result = schema.safeParse(value);
  if (result.success) return;
  for (const issue of result.error.issues) {
    if (issues.length >= limits.problems) return;
    issues.push({ ...issue, path: [...path, ...issue.path] });
  }
};

const collectRecord = (schema: z.ZodRecord, map: Record<string, unknown>, visit: Visit): void => {
  const [keys, values] = [schema.keyType as z.ZodType, schema.valueType as z.ZodType];
  for (const key of Object.keys(map)) {
    if (visit.issues.length >= limits.problems) return;
    const named = keys.safeParse(key);
    const path = [...visit.path, key];
    if (!named.success)
      visit.issues.push({
        code: 'invalid_key',
        origin: 'record',
        issues: named.error.issues,
        path,
        message: '',
        input: key,
      });
    else collect(values, { ...visit, value: map[key], path });
  }
};

const collectObject = (schema: z.ZodObject, map: Record<string, unknown>, visit: Visit): void => {
  const keys = Object.keys(map).filter((key) => !Object.hasOwn(schema.shape, key));
  if (keys.length > 0)
    visit.issues.push({ code: 'unrecognized_keys', keys, path: [...visit.path], message: '', input: map });
  for (const [key, field] of Object.entries(schema.shape))
    collect(field as z.ZodType, { ...visit, value: map[key], path: [...visit.path, key] });
};

const collectArray = (schema: z.ZodArray, list: readonly unknown[], visit: Visit): void => {
  const { maximum } = schema._zod.bag as { maximum?: number };
  if (maximum !== undefined && list.length > maximum)
    visit.issues.push({ code: 'too_big', origin: 'array', maximum, path: [...visit.path], message: '', input: list });
  for (const [index, value] of list.entries())
    collect(schema.element as z.ZodType, { ...visit, value, path: [...visit.path, index] });
};

/** Is this a map of fields, and no list, text or nothing? */
export const isMap = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** The schema inside "may be left out" and "may be null". */
export const withoutWrappers = (schema: z.ZodType): z.ZodType => {
  let bare = schema;
  while (bare instanceof z.ZodOptional || bare instanceof z.ZodNullable) bare = bare.unwrap() as z.ZodType;
  return bare;
};

/** How many values does this one hold, itself included? Counting ends at `enough`. */
const countNodes = (value: unknown, enough: number): number => {
  if (typeof value !== 'object' || value === null) return 1;
  let nodes = 1;
  for (const key in value) {
    nodes += countNodes((value as Record<string, unknown>)[key], enough - nodes);
    if (nodes >= enough) return nodes;
  }
  return nodes;
};
