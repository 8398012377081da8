import { readFileSync } from 'node:fs';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { expect, test } from 'vitest';
import { seedRecord } from '../../test/faults/seed-record.ts';
import { assessmentJsonSchema } from './json-schema.ts';
import { readAssessment } from './read/read-assessment.ts';
import { recordReference } from './record-reference.ts';

const committed = (path: string): string => readFileSync(new URL(`../../${path}`, import.meta.url), 'utf8');
// Types are not strict: a definition's type stands in the definition, its narrowing where it is used.
const validator = () =>
  new Ajv2020({ strict: true, strictTypes: false, validateFormats: false }).compile({ ...assessmentJsonSchema() });

test('the committed JSON Schema is the one made from the schema', () => {
  expect(JSON.parse(committed('schema/assessment.schema.json'))).toEqual(assessmentJsonSchema());
});

test('the committed reference page is the one made from the schema', () => {
  expect(committed('docs/reference/record.md')).toBe(recordReference());
});

test('the JSON Schema has a definition for every named part and takes a record without faults', () => {
  const { $defs } = assessmentJsonSchema() as { $defs: Record<string, unknown> };
  expect(Object.keys($defs)).toEqual(
    expect.arrayContaining(['id', 'part', 'fastener', 'way', 'entry', 'session', 'quantity']),
  );
  const validate = validator();
  expect([validate(seedRecord()), validate.errors]).toEqual([true, null]);
});

test.each(['tarn-5', 'tarn-4', 'beck-11', 'gust-2', 'quick-log'])('the example %s fits the JSON Schema', (example) => {
  const fileName = `examples/${example}/assessment.yaml`;
  const { assessment, problems } = readAssessment({ fileName, bytes: new TextEncoder().encode(committed(fileName)) });
  expect(problems).toEqual([]);
  const validate = validator();
  expect([validate(assessment), validate.errors]).toEqual([true, null]);
});

test('the JSON Schema refuses an unknown field, a reserved id and a wrong word', () => {
  const validate = validator();
  const wrong: readonly object[] = [
    { ...seedRecord(), nowhere: 1 },
    { ...seedRecord(), parts: { toString: {} } },
    { ...seedRecord(), parts: { a: { role: 'batery' } } },
  ];
  expect(wrong.map((record) => validate(record))).toEqual([false, false, false]);
});
