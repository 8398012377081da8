import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { assessmentJsonSchema } from '../src/record/json-schema.ts';
import { recordReference } from '../src/record/record-reference.ts';
import { openApiDocument } from '../src/server/app.ts';
import { laboratoryJsonSchema } from '../src/verdict/laboratory/laboratory-json-schema.ts';
import { rubricJsonSchema } from '../src/verdict/rubric/rubric-json-schema.ts';

// Writes what is made from schemas: the JSON Schemas of record, house rubric and laboratory, the record's reference page, the server's OpenAPI description. Run with `npx tsx tools/schema-docs.ts`.
const root = new URL('../', import.meta.url);
mkdirSync(new URL('schema/', root), { recursive: true });
mkdirSync(new URL('docs/reference/', root), { recursive: true });
writeFileSync(
  new URL('schema/assessment.schema.json', root),
  `${JSON.stringify(assessmentJsonSchema(), undefined, 2)}\n`,
);
writeFileSync(new URL('schema/rubric.schema.json', root), `${JSON.stringify(rubricJsonSchema(), undefined, 2)}\n`);
writeFileSync(
  new URL('schema/laboratory.schema.json', root),
  `${JSON.stringify(laboratoryJsonSchema(), undefined, 2)}\n`,
);
writeFileSync(new URL('docs/reference/record.md', root), recordReference());

const { version } = JSON.parse(readFileSync(new URL('package.json', root), 'utf8'));
writeFileSync(
  new URL('docs/reference/openapi.json', root),
  `${JSON.stringify(openApiDocument(version), undefined, 2)}\n`,
);
