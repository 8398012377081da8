import { isDeepStrictEqual } from 'node:util';
import { type Node, parseDocument, stringify, visit } from 'yaml';
import { z } from 'zod';
import { withoutWrappers } from '#record/read/collect-issues';
import { decodeText } from '#record/read/decode-text';
import { parseJson } from '#record/read/parse-json';
import { parseYaml } from '#record/read/parse-yaml';
import { assessment } from '#record/schema/assessment';
import type { SourceFile } from '../ledger.ts';
import { type DocumentEdit, documentEdits, isMap } from './document-edits.ts';
import { spliceText } from './splice-text.ts';
import type { FileLanguage } from './written-value.ts';

/**
 * In which manner was a document written? `as-imported`: byte for byte the file it came from; `edited`: that file with
 * only the changed places rewritten; `rewritten`: comments kept, but the layout made anew; `fresh`: written from the
 * values alone.
 */
export type WritingManner = 'as-imported' | 'edited' | 'rewritten' | 'fresh';

/** A document as the text of a file. */
export interface WrittenDocument {
  readonly name: string;
  readonly bytes: Uint8Array;
  readonly manner: WritingManner;
}

/**
 * How is a document written as a file, keeping what it can of the file it was imported from? Every attempt is read again
 * with the record's own reader and taken only when it gives the same values.
 */
export const writtenDocument = (document: unknown, source: SourceFile | undefined): WrittenDocument => {
  if (source === undefined) return fresh('assessment.yaml', document);
  const language: FileLanguage = source.name.toLowerCase().endsWith('.json') ? 'json' : 'yaml';
  const { text } = decodeText(source.bytes);
  if (text === undefined) return fresh(source.name, document);
  const edits = documentEdits(valuesOf(text, language), document);
  if (edits.length === 0) return { name: source.name, bytes: source.bytes, manner: 'as-imported' };
  const attempts = [
    ['edited', () => spliceText(text, { edits, language, document })],
    ['rewritten', () => (language === 'yaml' ? rewriteYaml(text, edits) : undefined)],
  ] as const;
  for (const [manner, attempt] of attempts) {
    const written = attempt();
    if (written !== undefined && isDeepStrictEqual(valuesOf(written, language), ordinary(document)))
      return { name: source.name, bytes: Buffer.from(written), manner };
  }
  return fresh(source.name, document);
};

/** Plain JSON values, so that two documents compare by content. */
const ordinary = (document: unknown): unknown => JSON.parse(JSON.stringify(document));

const valuesOf = (text: string, language: FileLanguage): unknown => {
  const { data, problems } = language === 'json' ? parseJson(text) : parseYaml(text);
  return problems.length > 0 || data === undefined ? undefined : ordinary(data);
};

const rewriteYaml = (text: string, edits: readonly DocumentEdit[]): string | undefined => {
  const file = parseDocument(text);
  if (file.errors.length > 0) return undefined;
  // What an alias repeats may read otherwise afterwards: each place gets a copy of its own.
  visit(file, { Alias: (_, alias) => file.createNode(alias.toJS(file)) as Node });
  for (const edit of edits)
    if (edit.kind === 'remove') file.deleteIn(edit.keys);
    else file.setIn(edit.keys, file.createNode(edit.value));
  return file.toString({ lineWidth: 0 });
};

const fresh = (name: string, document: unknown): WrittenDocument => {
  const ordered = inSchemaOrder(assessment, document);
  const isJson = name.toLowerCase().endsWith('.json');
  const text = isJson ? `${JSON.stringify(ordered, undefined, 2)}\n` : stringify(ordered, { lineWidth: 0 });
  return { name, bytes: Buffer.from(text), manner: 'fresh' };
};

/** Fields in the order of the schema, log entries in the order of time, everything else by id. */
const inSchemaOrder = (schema: z.ZodType | undefined, value: unknown): unknown => {
  if (!isMap(value)) return value;
  const bare = schema && withoutWrappers(schema);
  const keys = Object.keys(value).sort();
  if (bare instanceof z.ZodObject) {
    const shape: Record<string, z.ZodType> = bare.shape;
    const names = [
      ...Object.keys(shape).filter((name) => Object.hasOwn(value, name)),
      ...keys.filter((key) => !Object.hasOwn(shape, key)),
    ];
    return Object.fromEntries(names.map((name) => [name, inSchemaOrder(shape[name], value[name])]));
  }
  const inner = bare instanceof z.ZodRecord ? (bare.valueType as z.ZodType) : undefined;
  const timed = keys.map((key) => ({ key, at: timeOf(value[key]) })).sort((a, b) => a.at - b.at);
  return Object.fromEntries(timed.map(({ key }) => [key, inSchemaOrder(inner, value[key])]));
};

const timeOf = (item: unknown): number => (isMap(item) && typeof item.at === 'number' ? item.at : 0);
