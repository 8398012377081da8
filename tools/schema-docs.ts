import { mkdirSync, writeFileSync } from 'node:fs';
import { assessmentJsonSchema } from '../src/record/json-schema.ts';
import { recordReference } from '../src/record/record-reference.ts';

// Writes what is made from the record's schema: the JSON Schema and the reference page. Run with `npx tsx tools/schema-docs.ts`.
const root = new URL('../', import.meta.url);
mkdirSync(new URL('schema/', root), { recursive: true });
mkdirSync(new URL('docs/reference/', root), { recursive: true });
writeFileSync(
  new URL('schema/assessment.schema.json', root),
  `${JSON.stringify(assessmentJsonSchema(), undefined, 2)}\n`,
);
writeFileSync(new URL('docs/reference/record.md', root), recordReference());
